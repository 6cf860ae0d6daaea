using System.Collections.Immutable;

namespace WireUp.Planning.Blocks;

/// <summary>Places where a length of track could be gapped, in order along it, in millimetres.</summary>
/// <param name="Places">Distance of each place and how unwelcome it is.</param>
/// <param name="LengthMillimetres">Length of the track.</param>
/// <param name="OpenStart">Whether a block may begin at 0 without a gap: the track begins at a cut or at its end.</param>
/// <param name="OpenEnd">The same for its other end.</param>
internal sealed record BlockRun(ImmutableArray<(int Millimetres, int Cost)> Places, int LengthMillimetres, bool OpenStart, bool OpenEnd);

/// <summary>
/// Divides a length of track into as many blocks as there is room for, none shorter than asked: then at the least cost of the gaps, then as
/// equal as can be: least sum of squared lengths, what is left beyond the outer gaps taken four times. Exact, by dynamic programming over the places.
/// </summary>
internal static class BlockDivision
{
    private const int OuterWeight = 16;

    private readonly record struct Best(int Blocks, int Cost, long Squares, int Before) : IComparable<Best>
    {
        public int CompareTo(Best other)
        {
            int blocks = other.Blocks.CompareTo(Blocks), cost = Cost.CompareTo(other.Cost);
            return blocks != 0 ? blocks : cost != 0 ? cost : Squares.CompareTo(other.Squares);
        }
    }

    /// <summary>The places to gap, as indices; empty where not even one block fits.</summary>
    /// <param name="run">The track.</param>
    /// <param name="shortestMillimetres">Shortest block, above 0.</param>
    public static ImmutableArray<int> Of(BlockRun run, int shortestMillimetres)
    {
        // Node 0 is the start of the track, nodes 1 to n its places, node n + 1 its end.
        (int At, int Cost)[] nodes = [(0, 0), .. run.Places, (run.LengthMillimetres, 0)];
        Best?[] best = new Best?[nodes.Length];
        best[0] = new(0, 0, 0, -1);
        for (int i = 1; i < nodes.Length; i++)
        {
            best[i] = Enumerable.Range(0, i)
                .Select(before => Step(run, nodes, best[before], (before, i), shortestMillimetres))
                .Where(step => step is not null)
                .Min();
        }

        return best[^1] is { Blocks: > 0 } ? [.. Path(best)] : [];
    }

    /// <summary>
    /// From one gap to the next: a block if it is long enough, and nothing at all if it is too short, for only the track before the first gap
    /// and after the last may belong to no block, as the turnouts beyond do.
    /// </summary>
    private static Best? Step(BlockRun run, (int At, int Cost)[] nodes, Best? before, (int From, int To) step, int shortest)
    {
        if (before is not { } so)
        {
            return null;
        }

        int length = nodes[step.To].At - nodes[step.From].At, last = nodes.Length - 1;
        bool isOuter = (step.From == 0 && !run.OpenStart) || (step.To == last && !run.OpenEnd);
        return isOuter || length >= shortest
            ? new(so.Blocks + (isOuter ? 0 : 1), so.Cost + nodes[step.To].Cost, so.Squares + ((long)length * length * (isOuter ? OuterWeight : 1)), step.From)
            : null;
    }

    private static IEnumerable<int> Path(Best?[] best)
    {
        Stack<int> path = new();
        for (int node = best[^1]!.Value.Before; node > 0; node = best[node]!.Value.Before)
        {
            path.Push(node - 1);
        }

        return path;
    }
}
