using WireUp.Layouts;

namespace WireUp.Documents.Tests.Drawings.Exact;

public sealed class EveryKindTests
{
    public static TheoryData<string> Names => [.. TrackKit.EveryKind().Select(layout => layout.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_kind_of_trackwork_is_drawn_with_its_name_above_and_below(string name)
    {
        Layout layout = TrackKit.EveryKind().Single(layout => layout.Name == name);
        foreach (DrawingView view in new[] { DrawingView.Above, DrawingView.Below })
        {
            Scene scene = TestDrawing.Draw(layout, new() { View = view });
            HashSet<string> texts = [.. scene.Shapes.OfType<Shape.Text>().Select(text => text.Content)];
            Assert.All(layout.Track.Where(piece => piece is not Piece.Stop), piece => Assert.Contains(piece.Id.Name, texts));
        }
    }
}
