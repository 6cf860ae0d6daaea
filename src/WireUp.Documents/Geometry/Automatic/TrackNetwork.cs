using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>What a node of the network is.</summary>
internal enum NodeKind
{
    /// <summary>Where track ends: one half-run.</summary>
    End,

    /// <summary>A made-up node on a closed run without turnouts: two half-runs.</summary>
    Bend,

    /// <summary>A turnout: its right leg, its left leg and its points, counter-clockwise.</summary>
    Turnout,

    /// <summary>A crossing of tracks that run across each other: a1, b1, a2, b2.</summary>
    Crossing,

    /// <summary>Trackwork that is given a box of its own on squared paper: any number of half-runs.</summary>
    Box,

    /// <summary>Where a track enters a box: out of it, on round the box, back round the box. On squared paper only.</summary>
    Port,

    /// <summary>A corner of a box: on round it, back round it. On squared paper only.</summary>
    Corner,

    /// <summary>A crossing that the layout does not have but paper needs; each track keeps to its own way.</summary>
    Bridge,
}

/// <summary>A node of the network.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Piece">The piece of trackwork, or null.</param>
/// <param name="Halves">The half-runs that leave it, in counter-clockwise order seen from above.</param>
/// <param name="Arms">The ends of the piece that they leave by, in the same order; empty without a piece.</param>
internal sealed record NetworkNode(NodeKind Kind, Piece? Piece, ImmutableArray<int> Halves, ImmutableArray<string> Arms)
{
    /// <summary>Whether it is turned over: a crossing or transfer table whose ends go round clockwise.</summary>
    public bool Turned { get; init; }

    /// <summary>The same turned over.</summary>
    public NetworkNode Over() => this with { Halves = Reversed(Halves), Arms = Reversed(Arms), Turned = !Turned };

    private static ImmutableArray<T> Reversed<T>(ImmutableArray<T> round) => round.IsEmpty ? round : [round[0], .. round.Skip(1).Reverse()];
}

/// <summary>A run of plain track between two nodes. Half-run 2r leaves the from node of run r, half-run 2r + 1 its to node.</summary>
/// <param name="From">Node at which it begins.</param>
/// <param name="To">Node at which it ends.</param>
/// <param name="Sections">The sections on the way, each with whether it is passed from a to b.</param>
internal sealed record NetworkRun(int From, int To, ImmutableArray<(Piece.Section Section, bool Forward)> Sections);

/// <summary>A layout as turnouts, crossings and ends with runs of plain track between them.</summary>
/// <param name="Nodes">Its nodes.</param>
/// <param name="Runs">Its runs.</param>
internal sealed record TrackNetwork(ImmutableArray<NetworkNode> Nodes, ImmutableArray<NetworkRun> Runs)
{
    /// <summary>The network of a layout.</summary>
    public static TrackNetwork Of(Layout layout) => new TrackNetworkBuilder(layout).Build();

    /// <summary>
    /// The ends of a piece of trackwork in counter-clockwise order, which is the order of its halves. None for plain track. Of a moving
    /// bridge only the ends where a track begins: it may have a hundred roads and use three.
    /// </summary>
    public static ImmutableArray<string> Arms(Piece piece, Predicate<TrackEnd> isUsed) => piece switch
    {
        Piece.Turnout turnout => [turnout.RightLeg, turnout.LeftLeg, "points"],
        Piece.MultiTurnout turnout => [.. turnout.Legs.Reverse(), "points"],
        Piece.Crossing or Piece.Slip => ["a1", "b1", "a2", "b2"],
        Piece.Scissors => ["a1", "b1", "b2", "a2"],
        Piece.Turntable => [.. piece.EndNames.Reverse().Where(end => isUsed(piece.End(end)))],
        Piece.TransferTable => [.. piece.EndNames.Where(end => end[0] == 'w' && isUsed(piece.End(end))), .. piece.EndNames.Reverse().Where(end => end[0] == 'e' && isUsed(piece.End(end)))],
        Piece.Section or Piece.Stop => [],
        _ => throw new ArgumentOutOfRangeException(nameof(piece), piece, "no place in the network"),
    };

    /// <summary>What node a piece of trackwork is.</summary>
    public static NodeKind Kind(Piece piece) => piece switch
    {
        Piece.Turnout => NodeKind.Turnout,
        Piece.Crossing crossing when crossing.Angle.Degrees > SharpCrossing => NodeKind.Crossing,
        _ => NodeKind.Box,
    };

    // Up to this angle the tracks of a crossing lie beside each other rather than across.
    private const double SharpCrossing = 50;

    /// <summary>
    /// Whether nothing depends on which way round the ends go: of a crossing whose frogs carry no current, and of a transfer table,
    /// which may be numbered from either end.
    /// </summary>
    public static bool MayBeTurnedOver(Piece? piece) => piece is Piece.Crossing { Frog: FrogKind.Insulated } or Piece.TransferTable;

    /// <summary>The parts that no track joins, each a network of its own, in the order of their first nodes.</summary>
    public ImmutableArray<TrackNetwork> Parts()
    {
        int[] part = [.. Enumerable.Range(0, Nodes.Length)];
        for (bool changed = true; changed;)
        {
            changed = false;
            foreach (NetworkRun run in Runs)
            {
                int lower = Math.Min(part[run.From], part[run.To]);
                changed |= part[run.From] != lower || part[run.To] != lower;
                part[run.From] = part[run.To] = lower;
            }
        }

        return [.. part.Distinct().Select(number => Part(node => part[node] == number))];
    }

    private TrackNetwork Part(Predicate<int> holds)
    {
        int[] nodes = [.. Enumerable.Range(0, Nodes.Length).Where(node => holds(node))];
        int[] runs = [.. Enumerable.Range(0, Runs.Length).Where(run => holds(Runs[run].From))];
        return new(
            [.. nodes.Select(node => Nodes[node] with { Halves = [.. Nodes[node].Halves.Select(half => (2 * Array.IndexOf(runs, half / 2)) + (half & 1))] })],
            [.. runs.Select(run => Runs[run] with { From = Array.IndexOf(nodes, Runs[run].From), To = Array.IndexOf(nodes, Runs[run].To) })]);
    }
}
