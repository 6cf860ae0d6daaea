using System.Text;

namespace WireUp.Layouts.Writing;

/// <summary>Characters of a text to be replaced by others; none replaced is an insertion.</summary>
internal readonly record struct TextEdit(int Index, int Length, string Text)
{
    /// <summary>Makes edits that do not overlap, all in one go.</summary>
    public static string Apply(string text, IEnumerable<TextEdit> edits)
    {
        StringBuilder edited = new();
        int done = 0;
        foreach (TextEdit edit in edits.OrderBy(edit => edit.Index))
        {
            edited.Append(text, done, edit.Index - done).Append(edit.Text);
            done = edit.Index + edit.Length;
        }

        return edited.Append(text, done, text.Length - done).ToString();
    }
}
