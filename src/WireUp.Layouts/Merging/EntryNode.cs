using System.Collections.Immutable;

namespace WireUp.Layouts.Merging;

/// <summary>
/// One entry of a layout file as lines of its text: a piece, a feeder, a chain of joined ends; or a heading with the entries under it. Every line
/// of the file belongs to one node.
/// </summary>
/// <param name="Key">What tells it from its siblings: its name, or what the item of a list says.</param>
/// <param name="Lead">Comments and empty lines above it.</param>
/// <param name="Body">Its own lines, of a heading without the entries under it.</param>
/// <param name="Value">What it says, however it is written; of a heading nothing.</param>
/// <param name="Children">The entries under a heading.</param>
/// <param name="IsList">Whether these are items of a list.</param>
internal sealed record EntryNode(
    string Key, ImmutableArray<string> Lead, ImmutableArray<string> Body, string Value, ImmutableArray<EntryNode> Children, bool IsList)
{
    public bool IsHeading => !Children.IsEmpty;

    /// <summary>Blanks before its first line.</summary>
    public int Indent => Body[0].Length - Body[0].TrimStart(' ').Length;

    /// <summary>All its lines, those of the entries under it included.</summary>
    public IEnumerable<string> Lines => [.. Lead, .. Body, .. Children.SelectMany(child => child.Lines)];

    /// <summary>Whether two nodes have the same text; two that are not there have.</summary>
    public static bool Same(EntryNode? one, EntryNode? other) =>
        one is null || other is null ? one is null && other is null : one.Lines.SequenceEqual(other.Lines, StringComparer.Ordinal);

    /// <summary>The same with more blanks before each line, or fewer.</summary>
    public EntryNode Shifted(int blanks) => blanks == 0 ? this : this with
    {
        Lead = [.. Lead.Select(line => Shift(line, blanks))],
        Body = [.. Body.Select(line => Shift(line, blanks))],
        Children = [.. Children.Select(child => child.Shifted(blanks))],
    };

    /// <summary>Every entry that is no heading, with the keys that lead to it.</summary>
    public IEnumerable<(string Path, string Value)> Leaves(string above = "")
    {
        string path = above.Length == 0 ? Key : $"{above}: {Key}";
        return IsHeading ? Children.SelectMany(child => child.Leaves(path)) : [(path, Value)];
    }

    private static string Shift(string line, int blanks) => line.Length == 0 ? line
        : blanks > 0 ? new string(' ', blanks) + line
        : line[Math.Min(-blanks, line.Length - line.TrimStart(' ').Length)..];
}
