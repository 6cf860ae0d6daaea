namespace WireUp.Faults.Search;

/// <summary>Weights on a logarithmic scale made into probabilities that sum to one.</summary>
internal static class Posterior
{
    /// <summary>Probabilities in the order of the weights.</summary>
    internal static double[] Of(IReadOnlyList<double> logWeights)
    {
        double most = logWeights.Max(), sum = 0;
        double[] parts = new double[logWeights.Count];
        for (int i = 0; i < parts.Length; i++)
        {
            sum += parts[i] = Math.Exp(logWeights[i] - most);
        }

        for (int i = 0; i < parts.Length; i++)
        {
            parts[i] /= sum;
        }

        return parts;
    }

    /// <summary>Entropy in bits.</summary>
    internal static double Bits(IEnumerable<double> probabilities) =>
        probabilities.Where(p => p > 0).Sum(p => -p * Math.Log2(p));
}
