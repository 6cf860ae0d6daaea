using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>How much of what hangs on a set of turnouts is taken inside with it.</summary>
internal enum TakeIn
{
    /// <summary>Only dead-end roads.</summary>
    Roads,

    /// <summary>Also parts with no more dead-end roads than allowed.</summary>
    SmallParts,

    /// <summary>Everything that hangs on it.</summary>
    AllParts,
}

/// <summary>Makes <see cref="Core"/>s from sets of turnouts.</summary>
/// <param name="map">The map.</param>
/// <param name="hanging">What hangs on single runs.</param>
/// <param name="canTakeIn">Whether a run may lie wholly inside a section.</param>
/// <param name="roadsAllowed">Dead-end roads a section may hold without counting against it.</param>
internal sealed class CoreBuilder(RunMap map, HangingParts hanging, Func<int, bool> canTakeIn, int roadsAllowed)
{
    private readonly CellMap _whole = new(map, []);

    /// <summary>
    /// The core around a set of turnouts, leaving out some of the runs between them; null when it falls apart or is not balanced
    /// in itself.
    /// </summary>
    internal Core? Build(IEnumerable<int> turnouts, IReadOnlyCollection<int> leftOut, TakeIn takeIn)
    {
        SortedSet<int> junctions = [.. turnouts];
        SortedSet<int> runs = [];
        List<Tip> exits = [];
        int roads = 0;
        foreach (Tip tip in junctions.ToArray().SelectMany(junction => map.Junctions[junction].Tips))
        {
            HangingPart? part = hanging.From(tip);
            if (part is not null && !part.Junctions.Any(junctions.Contains) && Allows(takeIn, part))
            {
                runs.UnionWith(part.Runs);
                junctions.UnionWith(part.Junctions);
                roads += part.Roads;
            }
            else if (!leftOut.Contains(tip.Run) && canTakeIn(tip.Run)
                && map.PortAt(tip.Opposite) is { } port && junctions.Contains(port.Junction))
            {
                _ = runs.Add(tip.Run);
            }
            else if (!runs.Contains(tip.Run))
            {
                exits.Add(tip);
            }
        }

        return Check([.. junctions], [.. runs], [.. exits.OrderBy(tip => tip.Run).ThenBy(tip => tip.Side)], roads);
    }

    /// <summary>Runs with both tips at these turnouts, ascending.</summary>
    internal IEnumerable<int> RunsBetween(IReadOnlyCollection<int> turnouts) => turnouts
        .SelectMany(junction => map.Junctions[junction].Tips)
        .Where(tip => canTakeIn(tip.Run) && map.PortAt(tip.Opposite) is { } port && turnouts.Contains(port.Junction))
        .Select(tip => tip.Run)
        .Distinct()
        .Order();

    private bool Allows(TakeIn takeIn, HangingPart part) =>
        part.Junctions.IsEmpty || takeIn == TakeIn.AllParts || (takeIn == TakeIn.SmallParts && part.Roads <= roadsAllowed);

    private Core? Check(ImmutableArray<int> junctions, ImmutableArray<int> runs, ImmutableArray<Tip> exits, int roads)
    {
        SignUnionWorkspace parity = new(_whole.Count);
        foreach ((int cell, int junction, bool differ) in runs.SelectMany(_whole.Meetings))
        {
            if (!parity.Join(cell, junction, differ))
            {
                return null;
            }
        }

        int root = parity.Find(junctions[0]).Root;
        if (junctions.Any(junction => parity.Find(junction).Root != root))
        {
            return null;
        }

        ImmutableArray<bool> lefts =
        [
            .. exits.Select(exit => !(parity.Find(map.PortAt(exit)!.Value.Junction).Differs ^ !map.SameFrame(exit))),
        ];
        return new(junctions, runs, exits, lefts, roads);
    }
}
