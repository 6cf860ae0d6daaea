using System.Collections.Immutable;
using UnitsNet;

namespace WireUp.Layouts;

/// <summary>Any one part of the track. The cases are nested and the list of them is closed.</summary>
public abstract record Piece
{
    // One array for all pieces of a kind: arrays compare by identity, and so equal pieces are equal records.
    private static readonly ImmutableArray<string> SectionEnds = ["a", "b"];
    private static readonly ImmutableArray<string> StopEnds = ["a"];
    private static readonly ImmutableArray<string> TurnoutEnds = ["points", "through", "diverging"];
    private static readonly ImmutableArray<string> WyeEnds = ["points", "left", "right"];
    private static readonly ImmutableArray<string> CrossingEnds = ["a1", "a2", "b1", "b2"];

    private Piece(PieceId id, ImmutableArray<string> ends) => (Id, EndNames) = (id, ends);

    /// <summary>The piece's name.</summary>
    public PieceId Id { get; }

    /// <summary>The names of the ends, in the order of the handbook's table.</summary>
    public ImmutableArray<string> EndNames { get; }

    /// <summary>The ends themselves, in the order of <see cref="EndNames"/>.</summary>
    public IEnumerable<TrackEnd> Ends => EndNames.Select(name => new TrackEnd(Id, name));

    /// <summary>The end of that name.</summary>
    public TrackEnd End(string name) => new(Id, name);

    /// <summary>A run of plain track with ends <c>a</c> and <c>b</c>.</summary>
    public sealed record Section(PieceId SectionId, Length Length) : Piece(SectionId, SectionEnds)
    {
        /// <summary>The rail it is made of, or null for the layout's default.</summary>
        public RailMaterial? Rail { get; init; }

        /// <summary>The centre line on the plan, in metres; empty when the person gave none. For drawing only.</summary>
        public ImmutableArray<PlanPoint> Path { get; init; } = [];
    }

    /// <summary>A buffer stop, one end <c>a</c>; it does not join the rails.</summary>
    public sealed record Stop(PieceId StopId) : Piece(StopId, StopEnds);

    /// <summary>
    /// A turnout: ends <c>points</c>, <c>through</c>, <c>diverging</c>; a wye's legs are <c>left</c> and <c>right</c>.
    /// </summary>
    public sealed record Turnout(PieceId TurnoutId, TurnoutHand Hand, FrogKind Frog)
        : Piece(TurnoutId, Hand == TurnoutHand.Wye ? WyeEnds : TurnoutEnds)
    {
        /// <summary>Who feeds an isolated frog.</summary>
        public FrogFeed Feed { get; init; } = FrogFeed.None;

        /// <summary>The frog number (a six diverges one in six), or null when not given.</summary>
        public double? Number { get; init; }

        /// <summary>Length from points to heel; null or zero means rails of no resistance.</summary>
        public Length? Length { get; init; }

        /// <summary>Length over which wheels find no current at the frog, or null for an estimate from number and gauge.</summary>
        public Length? DeadLength { get; init; }

        /// <summary>The left leg's end name, seen from the points: <c>through</c> of a right-hand turnout.</summary>
        public string LeftLeg => Hand switch { TurnoutHand.Wye => "left", TurnoutHand.Left => "diverging", _ => "through" };

        /// <summary>The right leg's end name, seen from the points.</summary>
        public string RightLeg => Hand switch { TurnoutHand.Wye => "right", TurnoutHand.Left => "through", _ => "diverging" };
    }

    /// <summary>A fixed crossing of two tracks, a1–a2 and b1–b2; going round it the ends are a1, b1, a2, b2.</summary>
    public sealed record Crossing(PieceId CrossingId, Angle Angle, FrogKind Frog) : Piece(CrossingId, CrossingEnds)
    {
        /// <summary>Length of each of the two tracks; null or zero means rails of no resistance.</summary>
        public Length? Length { get; init; }

        /// <summary>Length over which wheels find no current at each frog, or null for an estimate.</summary>
        public Length? DeadLength { get; init; }
    }
}

/// <summary>Which way the diverging leg leaves, seen from the points towards the frog.</summary>
public enum TurnoutHand
{
    /// <summary>To the left.</summary>
    Left,

    /// <summary>To the right.</summary>
    Right,

    /// <summary>Both legs diverge.</summary>
    Wye,
}

/// <summary>How a frog carries current.</summary>
public enum FrogKind
{
    /// <summary>The frog carries none; the rails beyond it are bonded to the stock rail of their own polarity.</summary>
    Insulated,

    /// <summary>Metal, electrically alone; fed by a contact or not at all.</summary>
    Isolated,

    /// <summary>Blades, closure rails, frog and the rails beyond are one conductor, fed through the blades.</summary>
    Live,
}

/// <summary>Who feeds an isolated frog.</summary>
public enum FrogFeed
{
    /// <summary>Nobody: a dead length.</summary>
    None,

    /// <summary>A changeover contact that moves with the points.</summary>
    Contact,
}

/// <summary>A point of the plan, in metres; x to the right, y upward.</summary>
/// <param name="X">Metres to the right.</param>
/// <param name="Y">Metres upward on the plan.</param>
public readonly record struct PlanPoint(double X, double Y);

/// <summary>What a rail is made of: a code and an alloy from the reference table, or a measured resistance, which wins.</summary>
/// <param name="Code">Rail height in thousandths of an inch, for instance 83.</param>
/// <param name="Alloy">A name from the reference table, for instance <c>nickel-silver</c>.</param>
/// <param name="OhmsPerMetre">Measured resistance of one rail in ohm per metre, or null.</param>
public sealed record RailMaterial(int Code, string Alloy, double? OhmsPerMetre);
