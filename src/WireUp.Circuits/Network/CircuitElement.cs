using WireUp.Layouts;

namespace WireUp.Circuits.Network;

/// <summary>What an element of the circuit stands for.</summary>
internal enum ElementKind
{
    /// <summary>Output resistance of a booster, from its electromotive force to its terminal A.</summary>
    BoosterOutput,

    /// <summary>Breaker of a district and its connections, from the booster's terminal A to the start of the bus.</summary>
    Breaker,

    /// <summary>One wire of a run of bus.</summary>
    Bus,

    /// <summary>One wire of a feeder with its tap.</summary>
    Feeder,

    /// <summary>A length of rail.</summary>
    Rail,

    /// <summary>Rails inside a turnout or crossing, blades and contacts as they stand.</summary>
    Trackwork,

    /// <summary>One rail through a joint.</summary>
    Joint,
}

/// <summary>A resistance between two nodes.</summary>
/// <param name="From">One node.</param>
/// <param name="To">The other node.</param>
/// <param name="Ohms">Resistance, 0 or more, finite.</param>
/// <param name="Kind">What it stands for.</param>
internal readonly record struct CircuitElement(int From, int To, double Ohms, ElementKind Kind)
{
    /// <summary>Part of a source: everything else is copper and rail.</summary>
    internal bool IsDevice => Kind is ElementKind.BoosterOutput or ElementKind.Breaker;
}

/// <summary>An ideal source of a booster with the nodes around it.</summary>
/// <param name="Booster">The booster.</param>
/// <param name="Minus">Terminal B of the booster, negative pole of its electromotive force.</param>
/// <param name="Plus">Positive pole, behind the output resistance.</param>
/// <param name="Terminal">Terminal A of the booster.</param>
internal readonly record struct CircuitSource(Booster Booster, int Minus, int Plus, int Terminal)
{
    internal double Volts => Booster.Volts.Volts;
}

/// <summary>Where a district's bus starts.</summary>
/// <param name="District">The district.</param>
/// <param name="Source">Index of its booster's source.</param>
/// <param name="Start">Node of leg A behind the breaker.</param>
/// <param name="Breaker">Index of the breaker's element.</param>
internal readonly record struct DistrictStart(District District, int Source, int Start, int Breaker);

/// <summary>A length of track between two neighbouring stations of a section, with both of its rails.</summary>
/// <param name="Section">The section.</param>
/// <param name="FromMetres">Start, from the section's end a.</param>
/// <param name="ToMetres">End, from the section's end a.</param>
/// <param name="FirstAtStart">Node of the first conductor at the start.</param>
/// <param name="SecondAtStart">Node of the second conductor at the start.</param>
/// <param name="FirstAtEnd">Node of the first conductor at the end.</param>
/// <param name="SecondAtEnd">Node of the second conductor at the end.</param>
/// <param name="Ohms">Resistance of both conductors together, there and back.</param>
internal readonly record struct TrackSegment(
    PieceId Section,
    double FromMetres,
    double ToMetres,
    int FirstAtStart,
    int SecondAtStart,
    int FirstAtEnd,
    int SecondAtEnd,
    double Ohms)
{
    internal double LengthMetres => ToMetres - FromMetres;

    internal TrackPlace At(double fraction) => new(Section, FromMetres + (fraction * LengthMetres));
}
