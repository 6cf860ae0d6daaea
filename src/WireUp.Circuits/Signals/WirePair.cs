using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Signals;

/// <summary>
/// Two equal round wires side by side, carrying the same current out and back: what a bus is to anything faster than direct current.
/// </summary>
/// <remarks>
/// Slow changes fill the whole wire: L' = (μ₀/π)·(ln(D/a) + 1/4), a the radius, D the distance between the middles. Fast ones crowd to the
/// surface and to the other wire: L' = (μ₀/π)·acosh(D/2a), C' = π·ε₀·ε/acosh(D/2a), and a wave runs at c/√ε with Z₀ = √(L'/C').
/// </remarks>
public readonly record struct WirePair
{
    /// <summary>Two wires.</summary>
    /// <param name="diameterMetres">Diameter of the copper, metres, above 0.</param>
    /// <param name="spacingMetres">Between the middles of the two wires, metres; more than the diameter.</param>
    /// <param name="permittivity">Effective permittivity of what is between and around them, over that of the vacuum; at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public WirePair(double diameterMetres, double spacingMetres, double permittivity)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(diameterMetres);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(spacingMetres, diameterMetres);
        ArgumentOutOfRangeException.ThrowIfLessThan(permittivity, 1);
        (CopperDiameterMetres, SpacingMetres, Permittivity) = (diameterMetres, spacingMetres, permittivity);
    }

    /// <summary>Diameter of the copper, metres.</summary>
    public double CopperDiameterMetres { get; }

    /// <summary>Between the middles of the two wires, metres.</summary>
    public double SpacingMetres { get; }

    /// <summary>Effective permittivity over that of the vacuum.</summary>
    public double Permittivity { get; }

    /// <summary>Inductance of the loop a metre of pair, for changes slow enough to fill the wire: the larger of the two, H/m.</summary>
    public double HenriesPerMetre => Scale * (Math.Log(2 * SpacingMetres / CopperDiameterMetres) + 0.25);

    /// <summary>Inductance of the loop a metre of pair, current on the surface only, H/m.</summary>
    public double FastHenriesPerMetre => Scale * Math.Acosh(SpacingMetres / CopperDiameterMetres);

    /// <summary>Capacitance between the wires, F/m.</summary>
    public double FaradsPerMetre => Permittivity / (FastHenriesPerMetre * SpeedOfLight * SpeedOfLight);

    /// <summary>Characteristic impedance, Ω.</summary>
    public double Ohms => Math.Sqrt(FastHenriesPerMetre / FaradsPerMetre);

    /// <summary>Time a wave takes for a metre, s/m.</summary>
    public double SecondsPerMetre => Math.Sqrt(Permittivity) / SpeedOfLight;

    private static double Scale => Constants.Get("vacuum-permeability").Value / Math.PI;

    private static double SpeedOfLight => Constants.Get("speed-of-light").Value;

    /// <summary>A pair of the bus: lying together, insulation against insulation, or spread so far apart that air is between.</summary>
    /// <param name="wire">The wire.</param>
    /// <param name="spacing">Between the middles of the two wires; null, or less than they can lie together: lying together.</param>
    public static WirePair Of(Wire wire, Length? spacing)
    {
        double diameter = DiameterMetres(wire), together = diameter + (2e-3 * Constants.Get("pair-insulation").Value);
        double apart = Math.Max(together, spacing?.Meters ?? 0);

        // Insulation counts only where the wires touch: half a spacing of air beside it leaves little of it.
        return new(diameter, apart, apart > 2 * together ? 1 : Constants.Get("pair-permittivity").Value);
    }

    /// <summary>Diameter of the copper of a wire taken as round and solid, metres.</summary>
    public static double DiameterMetres(Wire wire) => 2e-3 * Math.Sqrt(Conductors.AreaSquareMillimetres(wire) / Math.PI);
}
