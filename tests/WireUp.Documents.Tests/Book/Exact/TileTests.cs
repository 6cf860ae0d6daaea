using WireUp.Documents.Book;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Book.Exact;

public sealed class TileTests
{
    private static readonly SceneBox Window = new(18, 18, 279, 170);
    private static readonly PlanGeometry Geometry = PlanGeometry.Of(TestLayouts.Sample("tarrow-valley"), TestContext.Current.CancellationToken);

    [Theory]
    [InlineData(1.5)]
    [InlineData(2.7)]
    [InlineData(4.8)]
    public void Every_place_of_the_track_is_on_some_sheet(double magnification)
    {
        TileSet set = TileSet.Of(Geometry, Window, magnification);

        Assert.All(Geometry.Lines, line =>
        {
            for (int i = 0; i <= 20; i++)
            {
                PlanPoint at = line.At(i / 20.0).At;
                Assert.Contains(set.Tiles, tile => Holds(tile.Part, at));
            }
        });
    }

    [Fact]
    public void All_sheets_have_the_same_scale_and_running_numbers()
    {
        TileSet set = TileSet.Of(Geometry, Window, 2);
        Assert.Equal(Enumerable.Range(1, set.Tiles.Length).Select(i => $"{i}"), set.Tiles.Select(tile => tile.Name));
        Assert.Single(set.Tiles.Select(tile => (Math.Round(tile.Part.Width, 6), Math.Round(tile.Part.Height, 6))).Distinct());
    }

    private static bool Holds(PlanBox box, PlanPoint at) => at.X >= box.MinX && at.X <= box.MaxX && at.Y >= box.MinY && at.Y <= box.MaxY;
}
