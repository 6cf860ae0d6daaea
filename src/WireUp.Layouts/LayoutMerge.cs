using System.Collections.Immutable;
using WireUp.Layouts.Merging;

namespace WireUp.Layouts;

/// <summary>What two edits of one layout file, made without knowing of each other, come to together.</summary>
/// <remarks>
/// The texts are joined entry by entry: a piece, a joint, a feeder, a train, a chain of joined ends, a gap, a single setting. Comments and order are
/// those of the one text with what is new in the other put where it stands there. Nothing is joined that would have a problem which neither text has.
/// </remarks>
public abstract record LayoutMerge
{
    private LayoutMerge()
    {
    }

    /// <summary>Both are in it.</summary>
    /// <param name="Text">The text.</param>
    /// <param name="Taken">Entries of theirs that are new, other or gone against what was seen, in the words of the file: <c>track: T1</c>, <c>wiring: feeders: f3</c>.</param>
    public sealed record Joined(string Text, ImmutableArray<string> Taken) : LayoutMerge;

    /// <summary>Both changed the same.</summary>
    /// <param name="Entries">What both changed, told as in <see cref="Joined"/>, in order of name; the same from whichever side it is asked.</param>
    public sealed record Clash(ImmutableArray<string> Entries) : LayoutMerge;

    /// <summary>They change different entries and cannot be one file all the same.</summary>
    /// <param name="Reason">Why, one sentence.</param>
    public sealed record Misfit(string Reason) : LayoutMerge;

    /// <summary>Joins two edits.</summary>
    /// <param name="seen">The text that both began with.</param>
    /// <param name="mine">What one made of it; gives order and comments.</param>
    /// <param name="theirs">What another made of it.</param>
    public static LayoutMerge Of(string seen, string mine, string theirs)
    {
        if (theirs == seen || mine == theirs) return new Joined(mine, []);
        if (mine == seen) return new Joined(theirs, Changed(EntryFile.Read(seen), EntryFile.Read(theirs)));
        if (EntryFile.Read(seen) is not { } before || EntryFile.Read(mine) is not { } one || EntryFile.Read(theirs) is not { } other)
        {
            return new Misfit("one of the texts cannot be taken apart into pieces and wiring: it is no YAML, or has all of it in brackets");
        }

        ThreeWay merge = new();
        EntryFile joined = merge.Join(before, one, other);
        return merge.Clashes is { IsEmpty: false } clashes ? new Clash(clashes) : Checked(joined, mine, theirs, Changed(before, other));
    }

    private static LayoutMerge Checked(EntryFile joined, string mine, string theirs, ImmutableArray<string> taken)
    {
        string text = joined.Write(mine);
        if (EntryFile.Read(text) is not { } again || !again.Root.Leaves().ToHashSet().SetEquals(joined.Root.Leaves()))
        {
            return new Misfit("the two are written in ways that cannot stand in one file");
        }

        LayoutProblem[] known = [.. Errors(mine), .. Errors(theirs)];
        LayoutProblem[] now = Errors(text);
        return now.FirstOrDefault(error => now.Count(each => each.Code == error.Code) > known.Count(each => each.Code == error.Code)) is { } problem
            ? new Misfit($"together they have a problem: {problem.Message} ({problem.Code})")
            : new Joined(text, taken);
    }

    private static LayoutProblem[] Errors(string text) => [.. LayoutFile.Read(text, "").Problems.Where(problem => problem.Severity == ProblemSeverity.Error)];

    private static ImmutableArray<string> Changed(EntryFile? before, EntryFile? after)
    {
        HashSet<(string Path, string Value)> was = [.. before?.Root.Leaves() ?? []], now = [.. after?.Root.Leaves() ?? []];
        was.SymmetricExceptWith(now);
        return [.. was.Select(leaf => leaf.Path).Distinct().Order(StringComparer.Ordinal)];
    }
}
