using WireUp.Layouts;
using WireUp.Planning.Districts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Exact;

/// <summary>Track that goes to one district as a whole.</summary>
public sealed class TrackCellTests
{
    private static readonly TrackEnd End = new(new("T1"), "points");

    [Fact]
    public void A_place_lies_in_it_that_lies_on_any_of_its_lengths()
    {
        TrackCell cell = new(0, 0, [], [Length("s1", 0, 1), Length("s2", 0.5, 2)], End);
        Assert.Equal(2.5, cell.LengthMetres, 1e-12);
        Assert.True(cell.Holds(new(new("s1"), 0.5)) && cell.Holds(new(new("s2"), 1)));
        Assert.False(cell.Holds(new(new("s2"), 0.25)) || cell.Holds(new(new("s3"), 0.5)));
    }

    [Fact]
    public void It_is_found_again_by_the_middles_of_its_lengths_or_else_by_an_end()
    {
        TrackCell cell = new(0, 0, [], [Length("s1", 0, 1), Length("s2", 2, 2)], End);
        Assert.Equal([new TrackLandmark(null, new(new("s1"), 0.5))], cell.Landmarks);
        Assert.Equal([new TrackLandmark(End, null)], new TrackCell(0, 0, [], [], End).Landmarks);
    }

    private static TrackStretch Length(string section, double from, double to) => new(new(section), from, to);
}
