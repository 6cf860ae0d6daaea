namespace WireUp.Layouts.Writing;

/// <summary>Writes <c>papers:</c>; nothing where all is as usual.</summary>
internal static class PapersText
{
    public static IEnumerable<(string Key, Snippet Value)> Of(Papers papers)
    {
        (string Key, string? Value)[] words =
        [
            ("leg-a", papers.LegA), ("leg-b", papers.LegB), ("frog", papers.Frog),
            ("leg-a-name", papers.LegAName), ("leg-b-name", papers.LegBName), ("work-sheet", papers.WorkSheet),
        ];
        foreach ((string key, string? value) in words)
        {
            if (value is not null)
            {
                yield return (key, new Snippet.Leaf(ScalarText.Write(value)));
            }
        }

        if (!papers.Letters.IsEmpty)
        {
            yield return ("letters", Snippet.Of(papers.Letters.Select(pair => (ScalarText.Write(pair.Key), (string?)ScalarText.Write(pair.Value)))));
        }
    }
}
