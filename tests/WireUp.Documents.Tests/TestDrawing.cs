using WireUp.Layouts;

namespace WireUp.Documents.Tests;

/// <summary>Draws with the running test's token.</summary>
internal static class TestDrawing
{
    public static Scene Draw(Layout layout, DrawingOptions? options = null) =>
        LayoutDrawing.Draw(layout, options ?? new(), TestContext.Current.CancellationToken);
}
