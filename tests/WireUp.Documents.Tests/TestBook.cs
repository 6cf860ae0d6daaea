using System.Collections.Immutable;
using UglyToad.PdfPig;
using WireUp.Planning;

namespace WireUp.Documents.Tests;

/// <summary>Composes books with the running test's token and reads them back.</summary>
internal static class TestBook
{
    public static ImmutableArray<Scene> Pages(PlanResult plan, BookOptions? options = null) =>
        WiringBook.Pages(plan, options ?? new(), TestContext.Current.CancellationToken);

    public static byte[] Compose(PlanResult plan, BookOptions? options = null) =>
        WiringBook.Compose(plan, options ?? new(), TestContext.Current.CancellationToken);

    /// <summary>The text of every page as PdfPig reads it.</summary>
    public static string[] Read(byte[] pdf)
    {
        using PdfDocument document = PdfDocument.Open(pdf);
        return [.. document.GetPages().Select(page => page.Text)];
    }
}
