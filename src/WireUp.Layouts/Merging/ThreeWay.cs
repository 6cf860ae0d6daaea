using System.Collections.Immutable;

namespace WireUp.Layouts.Merging;

/// <summary>
/// Joins two edits of one text, entry by entry. What one of them left as it was is taken from the other; what both changed alike is taken once;
/// an entry that both changed differently is a clash. Comments never clash: those of both are kept.
/// </summary>
internal sealed class ThreeWay
{
    private readonly SortedSet<string> _clashes = new(StringComparer.Ordinal);

    /// <summary>The entries that both changed, as the keys that lead to them.</summary>
    public ImmutableArray<string> Clashes => [.. _clashes];

    /// <summary>The joined file; of use only where nothing clashes.</summary>
    public EntryFile Join(EntryFile seen, EntryFile mine, EntryFile theirs) =>
        new(seen.Root with { Children = Children("", seen.Root, mine.Root, theirs.Root) }, Comments(seen.Tail, mine.Tail, theirs.Tail));

    private ImmutableArray<EntryNode> Children(string path, EntryNode? seen, EntryNode? mine, EntryNode? theirs)
    {
        if (seen is { IsList: true } && mine is not null && theirs is not null) LookForOneItemChangedTwice(path, seen, mine, theirs);
        Dictionary<string, EntryNode> old = ByKey(seen), ours = ByKey(mine), others = ByKey(theirs);
        List<EntryNode> joined = [];
        foreach (EntryNode one in mine?.Children ?? [])
        {
            if (Node(path, old.GetValueOrDefault(one.Key), one, others.GetValueOrDefault(one.Key)) is { } kept) joined.Add(kept);
        }

        int blanks = mine is { IsHeading: true } && theirs is { IsHeading: true } ? mine.Children[0].Indent - theirs.Children[0].Indent : 0;
        HashSet<string> there = [.. joined.Select(node => node.Key)];
        string? before = null;
        foreach (EntryNode one in theirs?.Children ?? [])
        {
            if (!ours.ContainsKey(one.Key) && Node(path, old.GetValueOrDefault(one.Key), null, one) is { } added)
            {
                joined.Insert(joined.FindIndex(node => node.Key == before) + 1, added.Shifted(blanks));
                there.Add(one.Key);
            }

            if (there.Contains(one.Key)) before = one.Key;
        }

        return [.. joined];
    }

    private static Dictionary<string, EntryNode> ByKey(EntryNode? heading) => (heading?.Children ?? []).ToDictionary(child => child.Key, StringComparer.Ordinal);

    private EntryNode? Node(string above, EntryNode? seen, EntryNode? mine, EntryNode? theirs)
    {
        if (EntryNode.Same(mine, theirs) || EntryNode.Same(seen, theirs)) return mine;
        if (EntryNode.Same(seen, mine)) return mine is null ? theirs : theirs?.Shifted(mine.Indent - theirs.Indent);
        string key = (mine ?? theirs)!.Key;
        string path = above.Length == 0 ? key : $"{above}: {key}";
        return IsHeadingOrGone(seen) && IsHeadingOrGone(mine) && IsHeadingOrGone(theirs) ? Heading(path, seen, mine, theirs) : Leaf(path, seen, mine, theirs);
    }

    private static bool IsHeadingOrGone(EntryNode? node) => node is null or { IsHeading: true };

    private EntryNode? Heading(string path, EntryNode? seen, EntryNode? mine, EntryNode? theirs)
    {
        ImmutableArray<EntryNode> children = Children(path, seen, mine, theirs);
        if (children.IsEmpty) return null;
        EntryNode kept = (mine ?? theirs)!;
        return kept with
        {
            Lead = mine is null || theirs is null ? kept.Lead : Comments(seen?.Lead ?? [], mine.Lead, theirs.Lead),
            Body = mine is null || theirs is null ? kept.Body : Body(path, seen, mine, theirs),
            Children = children,
        };
    }

    private EntryNode? Leaf(string path, EntryNode? seen, EntryNode? mine, EntryNode? theirs)
    {
        if (mine is null || theirs is null || mine.IsHeading || theirs.IsHeading)
        {
            _clashes.Add(path);
            return mine;
        }

        EntryNode like = theirs.Shifted(mine.Indent - theirs.Indent);
        ImmutableArray<string> body = Body(path, seen?.Shifted(mine.Indent - seen.Indent), mine, like);
        return mine with { Lead = Comments(seen?.Lead ?? [], mine.Lead, like.Lead), Body = body, Value = Equal(body, mine.Body) ? mine.Value : like.Value };
    }

    private ImmutableArray<string> Body(string path, EntryNode? seen, EntryNode mine, EntryNode theirs)
    {
        if (Equal(mine.Body, theirs.Body) || (seen is not null && Equal(seen.Body, theirs.Body))) return mine.Body;
        if (seen is not null && Equal(seen.Body, mine.Body)) return theirs.Body;
        _clashes.Add(path);
        return mine.Body;
    }

    /// <summary>
    /// An item of a list has no name: one that is gone on both sides while something else came on one of them at least may have been changed by both.
    /// </summary>
    private void LookForOneItemChangedTwice(string path, EntryNode seen, EntryNode mine, EntryNode theirs)
    {
        HashSet<string> was = Keys(seen), one = Keys(mine), other = Keys(theirs);
        string[] gone = [.. was.Where(key => !one.Contains(key) && !other.Contains(key))];
        one.ExceptWith(was);
        other.ExceptWith(was);
        if (gone.Length > 0 && !one.SetEquals(other)) _clashes.UnionWith(gone.Select(item => $"{path}: {item}"));

        static HashSet<string> Keys(EntryNode list) => [.. list.Children.Select(item => item.Key)];
    }

    private static ImmutableArray<string> Comments(ImmutableArray<string> seen, ImmutableArray<string> mine, ImmutableArray<string> theirs)
    {
        if (Equal(mine, theirs) || Equal(seen, theirs)) return mine;
        if (Equal(seen, mine)) return theirs;
        int blank = mine.Length;
        while (blank > 0 && mine[blank - 1].Length == 0) blank--;
        return [.. mine[..blank], .. theirs.Where(line => line.Length > 0 && !mine.Contains(line) && !seen.Contains(line)), .. mine[blank..]];
    }

    private static bool Equal(ImmutableArray<string> one, ImmutableArray<string> other) => one.SequenceEqual(other, StringComparer.Ordinal);
}
