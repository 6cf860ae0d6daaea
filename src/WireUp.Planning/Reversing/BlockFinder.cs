using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>A part of the map in which every two runs lie on a common cycle.</summary>
/// <param name="Runs">Its runs, ascending.</param>
/// <param name="IsOdd">Whether some walk round it comes back with the rails exchanged.</param>
internal sealed record Block(ImmutableArray<int> Runs, bool IsOdd);

/// <summary>Splits the map into its 2-connected parts.</summary>
internal static class BlockFinder
{
    /// <summary>The blocks of the map, leaving out runs that are not whole (parted for good), in order of their first run.</summary>
    internal static ImmutableArray<Block> Of(RunMap map, Func<int, bool> isWhole)
    {
        ImmutableArray<int> runs = [.. Enumerable.Range(0, map.Runs.Length).Where(run => isWhole(run) && map.Runs[run].IsThrough)];
        return
        [
            .. BiconnectedParts.Of(map.Junctions.Length, [.. runs.Select(run => (map.Runs[run].Port0!.Value.Junction, map.Runs[run].Port1!.Value.Junction))])
                .Select(part => part.Select(edge => runs[edge]).ToImmutableArray())
                .Select(part => new Block(part, !IsBalanced(map, part))),
        ];
    }

    /// <summary>Whether no walk over these runs comes back with the rails exchanged.</summary>
    internal static bool IsBalanced(RunMap map, IEnumerable<int> runs)
    {
        CellMap whole = new(map, []);
        SignUnionWorkspace parity = new(whole.Count);
        return runs.SelectMany(whole.Meetings).All(meeting => parity.Join(meeting.Cell, meeting.Junction, meeting.Differ));
    }
}
