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
    private static readonly ImmutableArray<ImmutableArray<string>> MultiTurnoutEnds =
        [.. Enumerable.Range(0, 10).Select(legs => legs == 3 ? ["points", "left", "through", "right"] : ImmutableArray.CreateRange(Roads("leg", legs).Prepend("points")))];

    private static readonly ImmutableArray<ImmutableArray<string>> TurntableEnds =
        [.. Enumerable.Range(0, 101).Select(roads => Roads("t", roads).ToImmutableArray())];

    private static readonly ImmutableArray<ImmutableArray<string>> TransferTableEnds =
        [.. Enumerable.Range(0, 101).Select(roads => Roads("w", roads).Concat(Roads("e", roads)).ToImmutableArray())];

    private static readonly ImmutableArray<string> CrossingEnds = ["a1", "a2", "b1", "b2"];

    private Piece(PieceId id, ImmutableArray<string> ends) => (Id, EndNames) = (id, ends);

    private static IEnumerable<string> Roads(string letter, int count) => Enumerable.Range(1, count).Select(road => $"{letter}{road}");

    /// <summary>The piece's name.</summary>
    public PieceId Id { get; private init; }

    /// <summary>The names of the ends, in the order of the handbook's table.</summary>
    public ImmutableArray<string> EndNames { get; }

    /// <summary>How long a train rolls from one end to another; zero for a piece that has no length of its own.</summary>
    public virtual double WayMetres => 0;

    /// <summary>
    /// How far the places on it go, in metres from its end a (of a bridge: from its head), or null for a piece on which no
    /// place can be named.
    /// </summary>
    public virtual double? PlacesMetres => null;

    /// <summary>The ends themselves, in the order of <see cref="EndNames"/>.</summary>
    public IEnumerable<TrackEnd> Ends => EndNames.Select(name => new TrackEnd(Id, name));

    /// <summary>The end of that name.</summary>
    public TrackEnd End(string name) => new(Id, name);

    /// <summary>The same piece under another name.</summary>
    public Piece Named(PieceId name) => this switch
    {
        Section piece => piece with { SectionId = name, Id = name },
        Stop piece => piece with { StopId = name, Id = name },
        Turnout piece => piece with { TurnoutId = name, Id = name },
        MultiTurnout piece => piece with { MultiTurnoutId = name, Id = name },
        Crossing piece => piece with { CrossingId = name, Id = name },
        Slip piece => piece with { SlipId = name, Id = name },
        Scissors piece => piece with { ScissorsId = name, Id = name },
        Turntable piece => piece with { TurntableId = name, Id = name },
        TransferTable piece => piece with { TransferTableId = name, Id = name },
        _ => throw new System.Diagnostics.UnreachableException($"no such piece as {this}"),
    };

    /// <summary>A run of plain track with ends <c>a</c> and <c>b</c>.</summary>
    public sealed record Section(PieceId SectionId, Length Length) : Piece(SectionId, SectionEnds)
    {
        /// <summary>The rail it is made of, or null for the layout's default.</summary>
        public RailMaterial? Rail { get; init; }

        /// <summary>Whether it can be lifted or swung out; it then has the positions <c>in</c> and <c>out</c>, and conducts to its neighbours only when in.</summary>
        public bool LiftOut { get; init; }

        /// <inheritdoc/>
        public override double WayMetres => Length.Meters;

        /// <inheritdoc/>
        public override double? PlacesMetres => Length.Meters;

        /// <summary>The centre line on the plan, in metres; empty when the person gave none. For drawing, and for the length where none is stated.</summary>
        public ImmutableArray<PlanPoint> Path { get; init; } = [];

        /// <summary>Whether no length is stated: it is that of the centre line.</summary>
        public bool LengthFromPath { get; init; }
    }

    /// <summary>A buffer stop, one end <c>a</c>; it does not join the rails.</summary>
    public sealed record Stop(PieceId StopId) : Piece(StopId, StopEnds);

    /// <summary>
    /// A turnout: ends <c>points</c>, <c>through</c>, <c>diverging</c>; a wye's legs are <c>left</c> and <c>right</c>.
    /// </summary>
    public sealed record Turnout(PieceId TurnoutId, TurnoutHand Hand, FrogKind Frog)
        : Piece(TurnoutId, Hand == TurnoutHand.Wye ? WyeEnds : TurnoutEnds)
    {
        /// <summary>Who feeds an isolated frog, or a live one besides its blades.</summary>
        public FrogFeed Feed { get; init; } = FrogFeed.None;

        /// <summary>Whether both legs curve to the side of <see cref="Hand"/>; the tighter one is then <c>diverging</c>. For drawing only.</summary>
        public bool Curved { get; init; }

        /// <summary>Whether the rails at the points end move as a whole to meet one leg or the other (a stub turnout).</summary>
        public bool Stub { get; init; }

        /// <summary>Of an insulated frog: whether the inner rails beyond it get current through their own blade only.</summary>
        public bool PowerRouting { get; init; }

        /// <summary>Of an isolated frog: whether the inner rails beyond it are one conductor with it, uncut.</summary>
        public bool HeelInFrog { get; init; }

        /// <summary>Whether the contact changes over while the old blade still touches.</summary>
        public bool EarlyContact { get; init; }

        /// <summary>Of hand-laid track on copper-clad ties: whether it is such.</summary>
        public bool CopperClad { get; init; }

        /// <summary>Of hand-laid track on copper-clad ties: where the foil is not cut through.</summary>
        public TieZones Uncut { get; init; } = TieZones.None;

        /// <inheritdoc/>
        public override double WayMetres => Length?.Meters ?? 0;

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

    /// <summary>
    /// A turnout with more than two legs: ends <c>points</c>, then the legs from left to right seen from the points, which
    /// are <c>left</c>, <c>through</c>, <c>right</c> of a three-way turnout and <c>leg1</c>, <c>leg2</c>, … of others.
    /// </summary>
    /// <param name="MultiTurnoutId">Its name.</param>
    /// <param name="LegCount">How many legs, from 3 to 9.</param>
    /// <param name="Frog">How its frogs carry current: one where the right rail of a leg crosses the left rail of a leg to the right of it.</param>
    public sealed record MultiTurnout(PieceId MultiTurnoutId, int LegCount, FrogKind Frog)
        : Piece(MultiTurnoutId, MultiTurnoutEnds[LegCount])
    {
        /// <summary>Who feeds isolated frogs, or live ones besides their blades.</summary>
        public FrogFeed Feed { get; init; } = FrogFeed.None;

        /// <summary>Of insulated frogs: whether inner rails get current through their own blades only.</summary>
        public bool PowerRouting { get; init; }

        /// <summary>Length from points to heel; null or zero means rails of no resistance.</summary>
        public Length? Length { get; init; }

        /// <summary>Length over which wheels find no current at each frog, or null for an estimate.</summary>
        public Length? DeadLength { get; init; }

        /// <summary>The legs from left to right.</summary>
        public IEnumerable<string> Legs => EndNames.Skip(1);

        /// <inheritdoc/>
        public override double WayMetres => Length?.Meters ?? 0;
    }

    /// <summary>
    /// A fixed crossing of two tracks, a1–a2 and b1–b2. Going round it counter-clockwise, seen from above, the ends are a1, b1,
    /// a2, b2; a1 and b1 lie at the acute side.
    /// </summary>
    public sealed record Crossing(PieceId CrossingId, Angle Angle, FrogKind Frog) : Piece(CrossingId, CrossingEnds)
    {
        /// <summary>Who feeds isolated or live frogs.</summary>
        public FrogFeed Feed { get; init; } = FrogFeed.None;

        /// <summary>
        /// Of live frogs: whether the left rail of track a, from a1 to a2, and the right rail of track b, from b1 to b2, carry the
        /// same leg, as where a figure of eight crosses itself; which two of the four frogs are bonded for good depends on it.
        /// </summary>
        public bool OppositePhase { get; init; }

        /// <summary>Length of each of the two tracks; null or zero means rails of no resistance.</summary>
        public Length? Length { get; init; }

        /// <summary>Length over which wheels find no current at each frog, or null for an estimate.</summary>
        public Length? DeadLength { get; init; }

        /// <inheritdoc/>
        public override double WayMetres => Length?.Meters ?? 0;
    }

    /// <summary>
    /// A crossing with slip roads: ends as of a <see cref="Crossing"/>. Both kinds have the slip road a1–b2; a double slip has b1–a2 too.
    /// </summary>
    public sealed record Slip(PieceId SlipId, bool Double, FrogKind Frog) : Piece(SlipId, CrossingEnds)
    {
        /// <summary>Who feeds isolated or live frogs.</summary>
        public FrogFeed Feed { get; init; } = FrogFeed.None;

        /// <summary>What drives the contacts of the frogs.</summary>
        public SlipDrive Drive { get; init; } = SlipDrive.OtherEnd;

        /// <summary>Angle between its two tracks, or null when not given. For drawing and estimates.</summary>
        public Angle? Angle { get; init; }

        /// <summary>Length of each of its tracks; null or zero means rails of no resistance.</summary>
        public Length? Length { get; init; }

        /// <summary>Length over which wheels find no current at each frog, or null for an estimate.</summary>
        public Length? DeadLength { get; init; }

        /// <inheritdoc/>
        public override double WayMetres => Length?.Meters ?? 0;
    }

    /// <summary>
    /// Two crossovers that cross each other between two parallel tracks, as one piece. Looking along the tracks from their ends 1, track
    /// a1–a2 is the left one and b1–b2 the right one; the crossovers are a1–b2 and b1–a2.
    /// </summary>
    public sealed record Scissors(PieceId ScissorsId, FrogKind Frog) : Piece(ScissorsId, CrossingEnds)
    {
        /// <summary>Who feeds isolated frogs, or live ones besides their blades.</summary>
        public FrogFeed Feed { get; init; } = FrogFeed.None;

        /// <summary>Angle between its two crossovers, or null when not given. For drawing and estimates.</summary>
        public Angle? Angle { get; init; }

        /// <summary>Length of each of its tracks; null or zero means rails of no resistance.</summary>
        public Length? Length { get; init; }

        /// <summary>Length over which wheels find no current at each frog, or null for an estimate.</summary>
        public Length? DeadLength { get; init; }

        /// <inheritdoc/>
        public override double WayMetres => Length?.Meters ?? 0;
    }

    /// <summary>
    /// A turntable: a bridge that turns in a pit, and roads that begin at the pit's edge, evenly spaced and numbered clockwise:
    /// <c>t1</c>, <c>t2</c>, … Places on the bridge are counted from its head; its position is named after the road its head stands at,
    /// or <c>t3-tail</c> where only its tail stands at a road (an odd number of roads).
    /// </summary>
    /// <param name="TurntableId">Its name.</param>
    /// <param name="RoadCount">How many road positions, used or not, from 2 to 100.</param>
    /// <param name="Length">Length of the bridge.</param>
    public sealed record Turntable(PieceId TurntableId, int RoadCount, Length Length)
        : Piece(TurntableId, TurntableEnds[RoadCount])
    {
        /// <summary>How the rails of the bridge get current.</summary>
        public BridgeFeed Feed { get; init; } = BridgeFeed.Wires;

        /// <summary>Of a split ring: the road after which, going clockwise, the first half ends; the split is between it and the next.</summary>
        public int SplitAfter { get; init; } = RoadCount / 2;

        /// <inheritdoc/>
        public override double WayMetres => Length.Meters;

        /// <inheritdoc/>
        public override double? PlacesMetres => Length.Meters;
    }

    /// <summary>
    /// A transfer table: a bridge that moves sideways between roads <c>w1</c>, <c>w2</c>, … on one side and <c>e1</c>, <c>e2</c>, …
    /// opposite them. Places on the bridge are counted from the w side; its positions are <c>1</c>, <c>2</c>, …
    /// </summary>
    /// <param name="TransferTableId">Its name.</param>
    /// <param name="RoadCount">How many positions, from 1 to 100.</param>
    /// <param name="Length">Length of the bridge.</param>
    public sealed record TransferTable(PieceId TransferTableId, int RoadCount, Length Length)
        : Piece(TransferTableId, TransferTableEnds[RoadCount])
    {
        /// <summary>How the rails of the bridge get current; a split ring it cannot have.</summary>
        public BridgeFeed Feed { get; init; } = BridgeFeed.Wires;

        /// <inheritdoc/>
        public override double WayMetres => Length.Meters;

        /// <inheritdoc/>
        public override double? PlacesMetres => Length.Meters;
    }
}
