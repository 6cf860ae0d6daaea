using WireUp.Faults.Search;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Next;

/// <summary>
/// What a reading may show, as far as is known: a mixture of normal distributions, in bins that are narrow where the meter is; of a breaker, which trips or holds, in two. From it follows how
/// many bits it is expected to tell about which part is faulty.
/// </summary>
/// <remarks>
/// I = Σ_parts p(part) Σ_bins p(bin|part)·log₂(p(bin|part)/p(bin)), the mutual information of part and reading. Bins are equal in asinh(x/σ), σ being
/// the least standard deviation, each a good σ wide near zero. Source: T. M. Cover, J. A. Thomas, Elements of Information Theory, chapter 2.3.
/// </remarks>
internal sealed class Predictive
{
    private const int Bins = 96;

    private static readonly double Misread = Constants.Get("reading-misread").Value;

    private readonly SessionReading _reading;
    private readonly Dictionary<string, (double Weight, List<(double Value, double Sigma, double Weight)> Atoms)> _parts = new(StringComparer.Ordinal);
    private double _anything;
    private Dictionary<string, (double Weight, double[] Bins)>? _tables;

    internal Predictive(SessionReading reading) => _reading = reading;

    /// <summary>Adds an explanation: what the reading shows under it, with weights that sum to one.</summary>
    internal void Add(string part, double probability, IReadOnlyList<(double Value, double Weight)> atoms)
    {
        if (!_parts.TryGetValue(part, out (double Weight, List<(double, double, double)> Atoms) known))
        {
            known = (0, []);
        }

        foreach ((double value, double weight) in atoms)
        {
            double shown = Math.Min(_reading.Shown(value), Meter.MostOhms), sigma = Math.Max(_reading.SigmaFor(value), _reading.OffAt(shown));
            known.Atoms.Add((shown, sigma, probability * weight));
        }

        _parts[part] = (known.Weight + probability, known.Atoms);
    }

    /// <summary>What is left: it may show anything.</summary>
    internal void AddAnything(double probability) => _anything += probability;

    /// <summary>Expected bits about which part it is.</summary>
    internal double Bits()
    {
        double[] all = All();
        return Tables().Values.Sum(part => Information(part.Bins, part.Weight, all));
    }

    /// <summary>Expected bits about whether it is this part.</summary>
    internal double BitsAbout(string part)
    {
        (double weight, double[] bins) = Tables()[part];
        double[] all = All(), others = new double[Bins];
        for (int b = 0; b < Bins; b++)
        {
            others[b] = weight < 1 ? Math.Max(0, (all[b] - (weight * bins[b])) / (1 - weight)) : 0;
        }

        return Information(bins, weight, all) + Information(others, 1 - weight, all);
    }

    private static double Information(double[] bins, double weight, double[] all)
    {
        double sum = 0;
        for (int b = 0; b < bins.Length; b++)
        {
            sum += bins[b] > 0 && all[b] > 0 ? bins[b] * Math.Log2(bins[b] / all[b]) : 0;
        }

        return weight * sum;
    }

    private double[] All()
    {
        double[] all = new double[Bins];
        foreach ((double weight, double[] bins) in Tables().Values)
        {
            for (int b = 0; b < Bins; b++)
            {
                all[b] += weight * bins[b];
            }
        }

        for (int b = 0; b < Bins; b++)
        {
            all[b] += _anything / Bins;
        }

        return all;
    }

    private Dictionary<string, (double Weight, double[] Bins)> Tables()
    {
        if (_tables is null)
        {
            IEnumerable<(double Value, double Sigma, double Weight)> atoms = _parts.Values.SelectMany(part => part.Atoms);
            double unit = atoms.Min(atom => atom.Sigma), top = Math.Asinh(atoms.Max(atom => atom.Value + (4 * atom.Sigma)) / unit);
            double[] edges = [.. Enumerable.Range(0, Bins + 1).Select(b => unit * Math.Sinh(top * b / Bins))];
            _tables = _parts.ToDictionary(part => part.Key, part => (part.Value.Weight, Table(part.Value.Atoms, part.Value.Weight, edges)), StringComparer.Ordinal);
        }

        return _tables;
    }

    private double[] Table(List<(double Value, double Sigma, double Weight)> atoms, double total, double[] edges)
    {
        double[] bins = new double[Bins];
        foreach ((double value, double sigma, double weight) in atoms)
        {
            double part = total > 0 ? weight / total : 0, before = 0;
            if (_reading.Source is MeterReading.Breaker)
            {
                double trips = Edges.Trips(value, _reading.Full);
                (bins[0], bins[1]) = (bins[0] + (part * (1 - trips)), bins[1] + (part * trips));
                continue;
            }

            int b = Math.Max(0, Array.BinarySearch(edges, Math.Max(0, value - (5 * sigma))) is var at && at < 0 ? ~at - 1 : at);
            for (; b < Bins && before < 1 - 1e-7; b++)
            {
                double upTo = b == Bins - 1 ? 1 : Normal((edges[b + 1] - value) / sigma);
                bins[b] += part * (upTo - before);
                before = upTo;
            }
        }

        for (int b = 0; b < Bins; b++)
        {
            bins[b] = ((1 - Misread) * bins[b]) + (Misread / Bins);
        }

        return bins;
    }

    /// <summary>Distribution function of the normal distribution by a logistic fit, off by less than 0.01: enough to choose a reading by.</summary>
    private static double Normal(double x) => 1 / (1 + Math.Exp(-x * (1.5976 + (0.070565992 * x * x))));
}
