namespace WireUp.Layouts.Tests.Support;

/// <summary>A text with the mark § in front of the place where something is wrong.</summary>
internal sealed record Marked(string Text, int Line, int Column)
{
    public static Marked Parse(string marked)
    {
        int at = marked.IndexOf('§', StringComparison.Ordinal);
        int lineStart = marked.LastIndexOf('\n', Math.Max(at - 1, 0)) + 1;
        return new(marked.Remove(at, 1), marked[..at].Count(c => c == '\n') + 1, at - (at == 0 ? 0 : lineStart) + 1);
    }
}
