namespace WireUp.Layouts;

/// <summary>The name of one piece of track, unique in its layout.</summary>
/// <param name="Name">As written in the layout file, for instance <c>T1</c>.</param>
public readonly record struct PieceId(string Name) : IComparable<PieceId>
{
    /// <summary>Orders by name, character by character, the same on every machine.</summary>
    public int CompareTo(PieceId other) => string.CompareOrdinal(Name, other.Name);

    /// <summary>The bare name.</summary>
    public override string ToString() => Name;
}

/// <summary>One end of a piece, where it can be joined to another.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Name">The end's name: <c>a</c>, <c>points</c>, <c>through</c>, …</param>
public readonly record struct TrackEnd(PieceId Piece, string Name) : IComparable<TrackEnd>
{
    /// <summary>Orders by piece, then by end name, ordinally.</summary>
    public int CompareTo(TrackEnd other)
    {
        int byPiece = Piece.CompareTo(other.Piece);
        return byPiece != 0 ? byPiece : string.CompareOrdinal(Name, other.Name);
    }

    /// <summary>As written in the layout file: <c>T1.points</c>.</summary>
    public override string ToString() => $"{Piece}.{Name}";
}

/// <summary>
/// Which conductor of a track. Two-rail track has <see cref="Left"/> and <see cref="Right"/>; three-rail track has
/// <see cref="Centre"/> and <see cref="Running"/> (both running rails, which wheels and axles join).
/// </summary>
public enum RailSide
{
    /// <summary>The left rail: of an end, looking out of the piece; of a section, looking from end a to end b.</summary>
    Left,

    /// <summary>The right rail, seen as <see cref="Left"/> is.</summary>
    Right,

    /// <summary>The centre conductor of three-rail track.</summary>
    Centre,

    /// <summary>Both running rails of three-rail track, taken as one conductor.</summary>
    Running,
}

/// <summary>One rail at one end of a piece.</summary>
/// <param name="End">The end.</param>
/// <param name="Side">The rail, seen looking out of the piece.</param>
public readonly record struct RailEnd(TrackEnd End, RailSide Side)
{
    /// <summary>As written in results: <c>T1.points/left</c>.</summary>
    public override string ToString() => $"{End}/{RailSides.Word(Side)}";
}

/// <summary>A place along a section or a moving bridge, across both of its rails.</summary>
/// <param name="Section">The section, or the turntable or transfer table.</param>
/// <param name="MetresFromA">Distance from end a, of a bridge from its head, in metres: from 0 to <see cref="Piece.PlacesMetres"/>.</param>
public readonly record struct TrackPlace(PieceId Section, double MetresFromA) : IComparable<TrackPlace>
{
    /// <summary>Orders by section, then by distance from end a.</summary>
    public int CompareTo(TrackPlace other)
    {
        int bySection = Section.CompareTo(other.Section);
        return bySection != 0 ? bySection : MetresFromA.CompareTo(other.MetresFromA);
    }

    /// <summary>As written in the layout file: <c>loop@1.25 m</c>, to a tenth of a millimetre.</summary>
    public override string ToString() =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Section}@{Math.Round(MetresFromA, 4)} m");
}

/// <summary>Words and mirror images of <see cref="RailSide"/>.</summary>
public static class RailSides
{
    /// <summary>The word of the layout file: <c>left</c>, <c>right</c>, <c>centre</c>, <c>running</c>.</summary>
    public static string Word(RailSide side) => side switch
    {
        RailSide.Left => "left",
        RailSide.Right => "right",
        RailSide.Centre => "centre",
        RailSide.Running => "running",
        _ => throw new ArgumentOutOfRangeException(nameof(side), side, "not a rail side"),
    };

    /// <summary>
    /// The same conductor seen from the other direction: left and right change places, centre and running stay.
    /// This is what a joint does: the left rail of one end meets the right rail of the other.
    /// </summary>
    public static RailSide Across(this RailSide side) => side switch
    {
        RailSide.Left => RailSide.Right,
        RailSide.Right => RailSide.Left,
        _ => side,
    };

    /// <summary>The other conductor of the same track: left for right, centre for running.</summary>
    public static RailSide Other(this RailSide side) => side switch
    {
        RailSide.Left => RailSide.Right,
        RailSide.Right => RailSide.Left,
        RailSide.Centre => RailSide.Running,
        RailSide.Running => RailSide.Centre,
        _ => throw new ArgumentOutOfRangeException(nameof(side), side, "not a rail side"),
    };

    /// <summary>The two conductors of the control system's track, the one that carries A by convention first.</summary>
    public static (RailSide First, RailSide Second) Of(ControlSystem control) =>
        control == ControlSystem.ThreeRail ? (RailSide.Centre, RailSide.Running) : (RailSide.Left, RailSide.Right);
}
