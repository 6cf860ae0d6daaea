using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>One point of one conductor of the track. Its text is the name used in results, netlists and drawings.</summary>
public abstract record RailPoint
{
    private RailPoint()
    {
    }

    /// <summary>The piece it belongs to.</summary>
    public abstract PieceId Piece { get; }

    /// <summary>A rail at an end of a piece.</summary>
    public sealed record AtEnd(RailEnd Rail) : RailPoint
    {
        /// <inheritdoc/>
        public override PieceId Piece => Rail.End.Piece;

        /// <summary><c>T1.points/left</c>.</summary>
        public override string ToString() => Rail.ToString();
    }

    /// <summary>A rail at a place within a section; <paramref name="Side"/> is seen from end a towards end b.</summary>
    public sealed record Within(TrackPlace Place, RailSide Side, GapFace Face) : RailPoint
    {
        /// <inheritdoc/>
        public override PieceId Piece => Place.Section;

        /// <summary><c>loop@1.25 m/left</c>; at a gap followed by <c>-</c> (a's side) or <c>+</c> (b's side).</summary>
        public override string ToString() =>
            $"{Place}/{RailSides.Word(Side)}{Face switch { GapFace.TowardsA => "-", GapFace.TowardsB => "+", _ => "" }}";
    }

    /// <summary>A conductor inside a piece, such as a frog.</summary>
    public sealed record Inside(PieceId Owner, string Name) : RailPoint
    {
        /// <inheritdoc/>
        public override PieceId Piece => Owner;

        /// <summary><c>T1/frog</c>.</summary>
        public override string ToString() => $"{Owner}/{Name}";
    }

    /// <summary>The wire of a feeder that a contact connects to the rails.</summary>
    public sealed record AtWire(PieceId Section, string Feeder, Leg Leg) : RailPoint
    {
        /// <inheritdoc/>
        public override PieceId Piece => Section;

        /// <summary><c>f1/A</c>.</summary>
        public override string ToString() => $"{Feeder}/{Leg}";
    }
}

/// <summary>On which face of a gap a point lies.</summary>
public enum GapFace
{
    /// <summary>There is no gap in this rail here.</summary>
    None,

    /// <summary>On the side of the section's end a.</summary>
    TowardsA,

    /// <summary>On the side of the section's end b.</summary>
    TowardsB,
}
