using System.Collections.Immutable;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Writing;

/// <summary>Writes <c>picture:</c>. Every length has its unit, so that it means the same in every file.</summary>
internal static class PictureText
{
    public static Snippet.Map Of(PlanPicture picture) => Snippet.Of(
        ("file", ScalarText.Write(picture.File)),
        ("width", LengthText.Write(picture.Width)),
        ("at", picture.At == default ? null : $"[{LengthText.Write(picture.At.X)}, {LengthText.Write(picture.At.Y)}]"),
        ("turn", picture.Turn.Degrees == 0 ? null : $"{Numbers.Exact(picture.Turn.Degrees)} deg"));

    /// <summary>The edits that put a picture into a text in place of the one that is there: value by value, so that comments stay.</summary>
    public static IEnumerable<TextEdit> Replace(TextInsertion insertion, TextNode.Mapping root, PlanPicture picture)
    {
        if (root.Entries.FirstOrDefault(entry => entry.Key.Value == "picture") is not { Value: TextNode.Mapping there })
        {
            return [insertion.Add(root, ["picture"], Of(picture))];
        }

        ImmutableArray<(string Key, Snippet Value)> parts = Of(picture).Entries;
        (string, Snippet)[] usual = [("at", new Snippet.Leaf("[0, 0]")), ("turn", new Snippet.Leaf("0 deg"))];
        IEnumerable<(string Key, Snippet Value)> whole = parts.Concat(usual.Where(each => parts.All(part => part.Key != each.Item1)));
        return whole.SelectMany(part => Replace(there, part.Key, part.Value.Flow)).Concat(Missing(insertion, there, parts));
    }

    /// <summary>The edit that takes the picture out of a text; nothing where there is none.</summary>
    public static IEnumerable<TextEdit> Remove(string text, TextNode.Mapping root)
    {
        if (root.IsFlow || root.Entries.FirstOrDefault(entry => entry.Key.Value == "picture") is not { } entry)
        {
            return [];
        }

        int end = text.IndexOf('\n', Math.Max(entry.Value.End.Index - 1, entry.Key.End.Index));
        end = end < 0 ? text.Length : end + 1;
        return [new TextEdit(entry.Key.Start.Index, end - entry.Key.Start.Index, "")];
    }

    private static IEnumerable<TextEdit> Replace(TextNode.Mapping there, string key, string value) => there.Entries
        .Where(entry => entry.Key.Value == key)
        .Select(entry => new TextEdit(entry.Value.Start.Index, entry.Value.End.Index - entry.Value.Start.Index, value));

    private static IEnumerable<TextEdit> Missing(TextInsertion insertion, TextNode.Mapping there, ImmutableArray<(string Key, Snippet Value)> parts)
    {
        ImmutableArray<(string Key, Snippet Value)> missing = [.. parts.Where(part => there.Entries.All(entry => entry.Key.Value != part.Key))];
        return missing.IsEmpty ? [] : [insertion.AddTo(there, new Snippet.Map(missing))];
    }
}
