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

    /// <summary>A crossing: a1, b1, a2, b2, going round either way.</summary>
    Crossing,

    /// <summary>A crossing that the layout does not have but paper needs; each track keeps to its own way.</summary>
    Bridge,
}

/// <summary>A node of the network.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Piece">The turnout or crossing, or null.</param>
/// <param name="Halves">The half-runs that leave it, in counter-clockwise order seen from above.</param>
/// <param name="Turned">Whether it is a crossing whose ends go round clockwise.</param>
internal sealed record NetworkNode(NodeKind Kind, Piece? Piece, ImmutableArray<int> Halves, bool Turned);

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
    /// The ends of a turnout or crossing in counter-clockwise order, which is the order of its halves; a crossing may be turned
    /// over, since the layout does not say which way round its ends go. None for plain track.
    /// </summary>
    public static ImmutableArray<string> Arms(Piece piece) => piece switch
    {
        Piece.Turnout turnout => [turnout.RightLeg, turnout.LeftLeg, "points"],
        Piece.Crossing => ["a1", "b1", "a2", "b2"],
        Piece.Section or Piece.Stop => [],
        _ => throw new ArgumentOutOfRangeException(nameof(piece), piece, "no place in the network"),
    };

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
