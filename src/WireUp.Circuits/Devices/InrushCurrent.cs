using System.Collections.Immutable;

namespace WireUp.Circuits.Devices;

/// <summary>Equal capacitors that charge side by side, each through a resistor of its own.</summary>
/// <param name="Count">How many.</param>
/// <param name="Ohms">The resistor of each, Ω.</param>
/// <param name="Farads">The capacitor of each, farad, above 0.</param>
public readonly record struct ChargingGroup(int Count, double Ohms, double Farads);

/// <summary>
/// The current after power comes back to empty capacitors behind one common resistance: a sum of falling exponentials, exactly, however
/// many kinds of them there are.
/// </summary>
/// <remarks>
/// With aₖ = 1/RₖCₖ and Gₖ = nₖ/Rₖ the current is V·Y/(s·(1 + R₀Y)), Y = Σ Gₖ·s/(s + aₖ). Its poles −λ are where
/// R₀·Σ Gₖ·λ/(aₖ − λ) = 1; the left side grows from one aₖ to the next through all numbers, so there is one λ below each aₖ, and halving
/// finds it. The share of each is V/(R₀²·λ·Σ Gₖaₖ/(aₖ − λ)²), above 0. For one kind: n·V/(R + n·R₀)·e^(−t/((R + n·R₀)·C)).
/// </remarks>
public sealed class InrushCurrent
{
    /// <summary>Less than any wire's: keeps a resistance of nothing from asking for endless current.</summary>
    private const double LeastOhms = 1e-6;

    private readonly ImmutableArray<(double Amps, double PerSecond)> _terms;

    /// <summary>A charging current.</summary>
    /// <param name="volts">Volts that come back.</param>
    /// <param name="commonOhms">Resistance that all share, Ω.</param>
    /// <param name="groups">What charges.</param>
    public InrushCurrent(double volts, double commonOhms, params IEnumerable<ChargingGroup> groups)
    {
        double common = Math.Max(commonOhms, LeastOhms);
        (double Siemens, double PerSecond)[] kinds =
        [
            .. groups.Where(group => group.Count > 0)
                .Select(group => (Siemens: group.Count / Math.Max(group.Ohms, LeastOhms), PerSecond: 1 / (Math.Max(group.Ohms, LeastOhms) * group.Farads)))
                .GroupBy(kind => kind.PerSecond)
                .Select(same => (same.Sum(kind => kind.Siemens), same.Key))
                .OrderBy(kind => kind.Key),
        ];
        _terms = [.. Enumerable.Range(0, kinds.Length).Select(k => Term(volts, common, kinds, k))];
    }

    /// <summary>Current at a time after power came back, ampere.</summary>
    /// <param name="seconds">That time, 0 or more.</param>
    public double AmpsAt(double seconds)
    {
        double amps = 0;
        foreach ((double share, double perSecond) in _terms)
        {
            amps += share * Math.Exp(-perSecond * seconds);
        }

        return amps;
    }

    private static (double Amps, double PerSecond) Term(double volts, double common, (double Siemens, double PerSecond)[] kinds, int k)
    {
        double low = k == 0 ? 0 : kinds[k - 1].PerSecond, high = kinds[k].PerSecond;
        for (int i = 0; i < 200 && low < high; i++)
        {
            double middle = (low + high) / 2;
            if (middle <= low || middle >= high)
            {
                break;
            }

            (low, high) = common * kinds.Sum(kind => kind.Siemens * middle / (kind.PerSecond - middle)) < 1 ? (middle, high) : (low, middle);
        }

        double root = k == 0 || low > kinds[k - 1].PerSecond ? low : high;
        double slope = kinds.Sum(kind => kind.Siemens * kind.PerSecond / ((kind.PerSecond - root) * (kind.PerSecond - root)));
        return double.IsFinite(slope) ? (volts / (common * common * root * slope), root) : (0, root);
    }
}
