using System.Collections.Immutable;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Search;

/// <summary>All readings of a session together: how probable they are when each ought to show a given value.</summary>
/// <remarks>
/// What the boosters really give is one unknown of the whole session: a factor s on every powered number, Gaussian about 1. For given values
/// it is fitted by least squares, readings that are far off left out, and integrated over: to the logarithm of the product come
/// −(s − 1)²/2σ² and the logarithm of how much narrower s has become.
/// </remarks>
internal sealed class Evidence(ImmutableArray<SessionReading> readings)
{
    /// <summary>A reading further off than this, in standard deviations, says nothing of the boosters.</summary>
    private const double FarOff = 4;

    /// <summary>Two explanations of which no reading differs by more than this part of a standard deviation are told apart by none.</summary>
    private const double AlikeSigmas = 0.2;

    private static readonly double SourceSpread = Constants.Get("source-spread").Value;

    private readonly ImmutableArray<SessionReading> _readings = readings;

    internal int Count => _readings.Length;

    internal ImmutableArray<SessionReading> Readings => _readings;

    /// <summary>Logarithm of the likelihood of all readings.</summary>
    internal double LogLikelihood(ReadOnlySpan<double> predicted)
    {
        double scale = Scale(predicted, out double sharpness);
        double over = (scale - 1) / SourceSpread, sum = -(over * over) / 2;
        sum -= Math.Log(1 + (sharpness * SourceSpread * SourceSpread)) / 2;
        for (int i = 0; i < predicted.Length; i++)
        {
            sum += _readings[i].LogLikelihood(predicted[i], _readings[i].IsPowered ? scale : 1);
        }

        return sum;
    }

    /// <summary>The same where the cause is nothing that the model holds.</summary>
    internal double LogLikelihoodOfAnything => _readings.Sum(reading => reading.LogLikelihoodOfAnything);

    /// <summary>Whether no reading tells one explanation from another.</summary>
    internal bool AreAlike(ReadOnlySpan<double> one, ReadOnlySpan<double> other)
    {
        for (int r = 0; r < one.Length; r++)
        {
            if (Math.Abs(_readings[r].Sigmas(one[r], 1) - _readings[r].Sigmas(other[r], 1)) >= AlikeSigmas)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>The factor on the boosters' volts that fits best.</summary>
    internal double Scale(ReadOnlySpan<double> predicted) => Scale(predicted, out _);

    private double Scale(ReadOnlySpan<double> predicted, out double sharpness)
    {
        double prior = 1 / (SourceSpread * SourceSpread), top = 0;
        sharpness = 0;
        for (int i = 0; i < predicted.Length; i++)
        {
            SessionReading reading = _readings[i];
            if (!reading.IsPowered)
            {
                continue;
            }

            double shown = reading.Shown(predicted[i]), sigma = reading.SigmaFor(predicted[i]);
            double room = (SourceSpread * shown * FarOff / 2) + (FarOff * sigma), off = reading.Measured - shown;
            if (Math.Abs(off) <= room)
            {
                top += shown * off / (sigma * sigma);
                sharpness += shown * shown / (sigma * sigma);
            }
        }

        return 1 + (top / (sharpness + prior));
    }
}
