using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace WireUp.Checking.Tests.Approved;

/// <summary>
/// Every word that <c>check</c> says of the examples of the finding pages and of the sample layouts, with places, path and positions, as it is
/// known to be.
/// </summary>
public sealed class FindingTextTests
{
    private const string Folder = "tests/WireUp.Checking.Tests/Approved";

    [Fact]
    public void What_is_found_in_the_examples_of_the_pages_is_as_approved() => ApprovedText.Matches(Told(ExampleLayouts.OfPages), "pages.txt", Folder);

    [Fact]
    public void What_is_found_in_the_samples_is_as_approved() => ApprovedText.Matches(Told(ExampleLayouts.Samples), "samples.txt", Folder);

    private static string Told(IEnumerable<(string Name, string Text)> layouts)
    {
        StringBuilder text = new();
        foreach ((string name, string yaml) in layouts)
        {
            text.Append(CultureInfo.InvariantCulture, $"# {name}\n");
            foreach (Finding finding in Checks.Of(Checks.Read(yaml, name)))
            {
                text.Append(CultureInfo.InvariantCulture, $"{finding.Code} {finding.Severity.Word()}: {finding.Message}\n    {finding.Remedy}\n");
                Append(text, "at", finding.Places);
                Append(text, "path", finding.Path);
                Append(text, "with", [.. finding.Turnouts.Select(pair => $"{pair.Key}.{pair.Value}")]);
            }

            text.Append('\n');
        }

        return text.ToString();
    }

    private static void Append(StringBuilder text, string word, ImmutableArray<string> items)
    {
        if (!items.IsEmpty) text.Append(CultureInfo.InvariantCulture, $"    {word}: {string.Join(", ", items)}\n");
    }
}
