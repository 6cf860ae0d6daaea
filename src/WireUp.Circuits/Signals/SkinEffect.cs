using System.Numerics;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Signals;

/// <summary>
/// Skin effect of a round conductor, exactly: the current density is a Bessel function of the radius, and
/// Z/R = (z/2)·I₀(z)/I₁(z) with z² = jωμσ·a². The quotient of the two Bessel functions is Gauss's continued fraction.
/// </summary>
/// <remarks>
/// Source: Lord Rayleigh 1886; F. E. Terman, Radio Engineers' Handbook, 1943, for the tables (both from memory). With q = z²/4,
/// Z/R = 1 + q/(2 + q/(3 + q/(4 + …))), which converges for every q; the real part is R(f)/R(0), the imaginary part ωL(f)/R(0).
/// </remarks>
public static class SkinEffect
{
    /// <summary>Depth at which the current of a thick conductor has fallen to 1/e, metres.</summary>
    /// <param name="ohmMetres">Resistivity, Ω·m, above 0.</param>
    /// <param name="relativePermeability">Permeability over that of the vacuum; 1 unless it is a magnet's metal.</param>
    /// <param name="hertz">Frequency, above 0.</param>
    public static double DepthMetres(double ohmMetres, double relativePermeability, double hertz) =>
        Math.Sqrt(ohmMetres / (Math.PI * hertz * relativePermeability * Constants.Get("vacuum-permeability").Value));

    /// <summary>Resistance at a frequency over that at direct current, of a round conductor on its own.</summary>
    /// <param name="radiusMetres">Its radius, metres.</param>
    /// <param name="depthMetres">Skin depth, metres.</param>
    public static double ResistanceRatio(double radiusMetres, double depthMetres) => Impedance(radiusMetres, depthMetres).Real;

    /// <summary>Inductance inside a round conductor at a frequency over that at direct current, which is μ/8π a metre.</summary>
    /// <param name="radiusMetres">Its radius, metres.</param>
    /// <param name="depthMetres">Skin depth, metres.</param>
    public static double InternalInductanceRatio(double radiusMetres, double depthMetres)
    {
        // ωL/R at direct current is Im q/2: the first term of the series of Z/R, 1 + q/2 − …
        Complex q = Argument(radiusMetres, depthMetres);
        return q.Imaginary == 0 ? 1 : Impedance(radiusMetres, depthMetres).Imaginary / (q.Imaginary / 2);
    }

    /// <summary>Resistance ratio of a copper wire at 20 °C, taken as round and solid; stranded wire of the same section has no more.</summary>
    /// <param name="wire">The wire.</param>
    /// <param name="hertz">Frequency, above 0.</param>
    public static double OfCopper(Wire wire, double hertz) =>
        ResistanceRatio(WirePair.DiameterMetres(wire) / 2, DepthMetres(1e-6 / Constants.CopperConductivity.Value, 1, hertz));

    /// <summary>
    /// Resistance ratio of a rail: that of the round conductor which has the same section for its girth, the girth taken round the
    /// rail's outline of height and foot. Only steel is magnetic; its permeability is an estimate from memory, so the ratio is one too.
    /// </summary>
    /// <param name="rail">The rail; of one with measured resistance, its code and alloy.</param>
    /// <param name="hertz">Frequency, above 0.</param>
    /// <exception cref="KeyNotFoundException">The alloy is not in the table.</exception>
    public static double OfRail(RailMaterial rail, double hertz)
    {
        double permeability = rail.Alloy == "steel" ? Constants.Get("steel-permeability").Value : 1;
        double depth = DepthMetres(RailTable.ResistivityOhmMetres(rail.Alloy), permeability, hertz);
        return ResistanceRatio(2 * RailTable.SectionSquareMillimetres(rail.Code) / RailTable.GirthMillimetres(rail.Code) / 1000, depth);
    }

    private static Complex Argument(double radiusMetres, double depthMetres)
    {
        double radii = radiusMetres / depthMetres;
        return new(0, radii * radii / 2);
    }

    private static Complex Impedance(double radiusMetres, double depthMetres)
    {
        Complex q = Argument(radiusMetres, depthMetres);

        // From the inside out: beyond n² ≫ |q| a link adds less than the last digit.
        int links = 60 + (int)(6 * Math.Sqrt(q.Magnitude));
        Complex value = links + 1;
        for (int n = links; n >= 1; n--)
        {
            value = n + (q / value);
        }

        return value;
    }
}
