using WireUp.Faults.Search;
using WireUp.Layouts;

namespace WireUp.Faults.Tests.Exact;

/// <summary>Where on the plan a suspect is marked, and which parts are at a place that somebody presses.</summary>
public sealed class SuspectPlaceTests
{
    private static readonly System.Collections.Immutable.ImmutableArray<FaultElement> Parts = FaultSearch.Parts(SmallLayout.Layout);

    [Theory]
    [InlineData("joint spur-1.b–spur-2.a, left rail", "spur-1.b")]
    [InlineData("rails of spur-2", "spur-2@0.5 m")]
    [InlineData("blade T1.through, T1/frog to T1.points/right", "T1")]
    [InlineData("bus of east at P1", "f1")] // where the feeder is that taps it
    [InlineData("booster main", null)] // it is not on the track
    public void A_suspect_is_marked_at_its_end_its_place_its_piece_or_its_feeder(string part, string? place)
    {
        IEnumerable<(int Rank, string Place)> marks = SuspectLetters.Places(SmallLayout.Layout, Of(part, part));
        Assert.Equal(place is null ? [] : [(0, place), (1, place)], marks);
    }

    [Fact]
    public void Six_suspects_have_letters_and_those_that_are_hardly_suspected_none()
    {
        string[] joints = [.. Parts.Where(part => part.Kind == FaultElementKind.Joiner).Select(part => part.Place).Take(8)];
        Assert.Equal([0, 1, 2, 3, 4, 5], SuspectLetters.Places(SmallLayout.Layout, Of(joints)).Select(mark => mark.Rank));
        Diagnosis faint = Of(joints) with { Faults = [.. Of(joints).Faults.Select((fault, rank) => fault with { Probability = rank < 3 ? 0.001 : 0.0009 })] };
        Assert.Equal(3, SuspectLetters.Listed(faint).Count());
        Assert.Equal(2, SuspectLetters.Listed(faint with { Faults = [.. faint.Faults.Select(fault => fault with { Probability = 0 })] }).Count());
    }

    [Theory]
    [InlineData("P1", "bus run main–P1 of east, wire A", true)]
    [InlineData("P1", "bus of east at P1", true)]
    [InlineData("P1", "tap of feeder f1 at P1, leg A", true)]
    [InlineData("P1", "booster main", false)]
    [InlineData("P2", "bus of east at P1", false)]
    [InlineData("P1", "breaker of east", false)]
    public void Pressing_at_a_point_of_the_bus_moves_what_is_there(string point, string part, bool isThere) =>
        Assert.Equal(isThere, ReadingPlaces.IsAt(Part(part), new ReadingPlace.AtBus("east", point)));

    [Theory]
    [InlineData("spur-2", "rails of spur-2", true)]
    [InlineData("spur-2", "rails of spur-1", false)]
    [InlineData("spur-2", "joint spur-2.b–spur-3.a, left rail", true)]
    public void Pressing_on_a_section_moves_what_is_on_it(string section, string part, bool isThere) =>
        Assert.Equal(isThere, ReadingPlaces.IsAt(Part(part), new ReadingPlace.Along(new(new(section), 0.5))));

    [Fact]
    public void Pressing_at_a_device_moves_that_device()
    {
        Assert.True(ReadingPlaces.IsAt(Part("breaker of east"), new ReadingPlace.AtBreaker("east")));
        Assert.False(ReadingPlaces.IsAt(Part("breaker of east"), new ReadingPlace.AtBreaker("west")));
        Assert.False(ReadingPlaces.IsAt(Part("bus of east at P1"), new ReadingPlace.AtBreaker("east")));
        Assert.True(ReadingPlaces.IsAt(Part("booster main"), new ReadingPlace.AtBooster("main")));
        Assert.False(ReadingPlaces.IsAt(Part("booster main"), new ReadingPlace.AtBooster("other")));
        Assert.False(ReadingPlaces.IsAt(Part("breaker of east"), new ReadingPlace.AtBooster("east")));
    }

    private static FaultElement Part(string place) => Parts.Single(part => part.Place == place);

    /// <summary>A diagnosis that suspects these parts, each as much as the others.</summary>
    private static Diagnosis Of(params string[] places) => new()
    {
        Faults = [.. places.Select(place => new RankedFault([new(Part(place), FaultState.Open)], 1.0 / places.Length) { Predicted = [], Group = 0, Confirm = null })],
        NothingWrong = 0,
        NotInModel = 0,
        Unlisted = 0,
        PairsMissed = 0,
        Bits = 0,
        Readings = [],
        Contradiction = null,
        Next = [],
    };
}
