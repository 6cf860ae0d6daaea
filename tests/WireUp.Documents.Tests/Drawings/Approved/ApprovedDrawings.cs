namespace WireUp.Documents.Tests.Drawings.Approved;

public sealed class ApprovedDrawings
{
    [Theory]
    [InlineData(DrawingView.Above, "balloon-above.svg")]
    [InlineData(DrawingView.Below, "balloon-below.svg")]
    public void The_balloon_is_drawn_as_approved(DrawingView view, string file) =>
        ApprovedText.Matches(SvgScene.Write(TestDrawing.Draw(TestLayouts.Balloon, new() { View = view })), file, "tests/WireUp.Documents.Tests/Drawings/Approved");
}
