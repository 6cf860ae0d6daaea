using UnitsNet;
using WireUp.Circuits.Network;
using WireUp.Circuits.Numerics;
using WireUp.Layouts;

namespace WireUp.Circuits.Places;

/// <summary>
/// A length of track between two neighbouring places where something happens, with its figures as closed forms: what holds at every
/// place of it, not at sampled ones.
/// </summary>
/// <remarks>
/// With t the fraction from its start: open-circuit volts are a straight line, loop resistance and volts under the design load
/// parabolas, fault current the line over the first of them and the coin. Derivation: docs/physics.md.
/// </remarks>
public sealed record FedStretch
{
    internal FedStretch(PieceId section, double fromMetres, double toMetres, StretchFeed feed, StretchForms forms) =>
        (Section, FromMetres, ToMetres, Feed, Forms) = (section, fromMetres, toMetres, feed, forms);

    /// <summary>The section or moving bridge.</summary>
    public PieceId Section { get; }

    /// <summary>Where it starts, metres from end a.</summary>
    public double FromMetres { get; }

    /// <summary>Where it ends, metres from end a.</summary>
    public double ToMetres { get; }

    /// <summary>Its length in metres.</summary>
    public double LengthMetres => ToMetres - FromMetres;

    /// <summary>The district whose breaker carries a short in its middle.</summary>
    public string District => Feed.District;

    /// <summary>The booster of that district.</summary>
    public string Booster => Feed.Booster;

    /// <summary>Open-circuit voltage of that booster.</summary>
    public ElectricPotential SourceVolts => ElectricPotential.FromVolts(Feed.SourceVolts);

    /// <summary>Current at which its breaker trips, see <see cref="Layouts.District.OpensFrom"/>.</summary>
    public ElectricCurrent Trip => ElectricCurrent.FromAmperes(Feed.TripAmps);

    /// <summary>The place of the lowest volts under the design load, in closed form; of two equal ones the nearer to end a.</summary>
    public PlacePower LowestVolts => AtFraction(Forms.DesignVolts.Lowest());

    /// <summary>The place of the lowest fault current, in closed form.</summary>
    public PlacePower LowestFault => AtFraction(Forms.Live.LowestFault(Feed.CoinOhms));

    /// <summary>The place of the largest loop resistance seen from a source without resistance, in closed form.</summary>
    public PlacePower LargestLoop => AtFraction(Forms.LoopOhms.Highest());

    internal StretchFeed Feed { get; }

    internal StretchForms Forms { get; }

    /// <summary>What a train finds at a place of this length of track.</summary>
    /// <param name="metresFromA">Metres from end a, from <see cref="FromMetres"/> to <see cref="ToMetres"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The place lies outside.</exception>
    public PlacePower At(double metresFromA) => AtFraction(Fraction(metresFromA));

    /// <summary>Volts at a place without any load.</summary>
    /// <param name="metresFromA">As of <see cref="At"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The place lies outside.</exception>
    public ElectricPotential OpenVolts(double metresFromA) => ElectricPotential.FromVolts(Math.Abs(Forms.Live.OpenVolts(Fraction(metresFromA))));

    /// <summary>The part between two places, with the same figures.</summary>
    /// <param name="fromMetres">Its start, metres from end a.</param>
    /// <param name="toMetres">Its end, not before its start.</param>
    /// <exception cref="ArgumentOutOfRangeException">A place lies outside.</exception>
    public FedStretch Part(double fromMetres, double toMetres) => toMetres >= fromMetres
        ? new(Section, fromMetres, toMetres, Feed, Forms.Between(Fraction(fromMetres), Fraction(toMetres)))
        : throw new ArgumentOutOfRangeException(nameof(toMetres), toMetres, $"must not be less than {fromMetres} m");

    private PlacePower AtFraction(double t)
    {
        double volts = Forms.DesignVolts.At(t);
        return new(
            new(Section, FromMetres + (t * LengthMetres)),
            ElectricPotential.FromVolts(volts),
            Ratio.FromDecimalFractions((Feed.SourceVolts - volts) / Feed.SourceVolts),
            ElectricCurrent.FromAmperes(Forms.Live.FaultAmps(t, Feed.CoinOhms)),
            ElectricResistance.FromOhms(Forms.LoopOhms.At(t)));
    }

    private double Fraction(double metresFromA)
    {
        const double Rounding = 1e-9;
        if (!(metresFromA >= FromMetres - Rounding && metresFromA <= ToMetres + Rounding))
        {
            throw new ArgumentOutOfRangeException(nameof(metresFromA), metresFromA, $"must lie in [{FromMetres}–{ToMetres}] m");
        }

        return LengthMetres > 0 ? Math.Clamp((metresFromA - FromMetres) / LengthMetres, 0, 1) : 0;
    }
}

/// <summary>What feeds a length of track, in SI units.</summary>
internal sealed record StretchFeed(string District, string Booster, double SourceVolts, double TripAmps, double CoinOhms);

/// <summary>The closed forms of a length of track over the fraction t from its start, in SI units.</summary>
/// <param name="Live">Open-circuit volts and the resistance seen between the conductors, sources included.</param>
/// <param name="DesignVolts">Volts under the design load.</param>
/// <param name="SourceOhms">The part of the resistance that is boosters and breakers.</param>
internal readonly record struct StretchForms(LiveSegment Live, Parabola DesignVolts, Parabola SourceOhms)
{
    internal Parabola LoopOhms =>
        new(Live.Ohms.C0 - SourceOhms.C0, Live.Ohms.C1 - SourceOhms.C1, Live.Ohms.C2 - SourceOhms.C2);

    internal StretchForms Between(double from, double to) =>
        new(Live.Between(from, to), DesignVolts.Between(from, to), SourceOhms.Between(from, to));
}
