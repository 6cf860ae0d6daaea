using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Checking.Tests.Exact;

/// <summary>What happens while the points move.</summary>
public sealed class MidThrowTests
{
    /// <summary>A live turnout with gaps beyond its frog, fed everywhere, its frog also fed by a contact.</summary>
    private static Layout Turnout(bool early, FrogKind frog = FrogKind.Live)
    {
        Layout layout = new PlanBuilder()
            .Sections("toe left right").Chain("toe > T1.points").Chain("T1.through > left").Chain("T1.diverging > right")
            .Turnouts("T1", frog: frog, feed: FrogFeed.Contact)
            .Gap("T1.through", RailSet.Right).Gap("T1.diverging", RailSet.Left)
            .Feed("d", "toe@1", "left@1", "right@1").Build();
        return layout with
        {
            Track = [.. layout.Track.Select(piece => piece is Piece.Turnout turnout ? turnout with { EarlyContact = early } : piece)],
        };
    }

    private static ImmutableArray<Finding> Shorts(Layout layout) => [.. Checks.Of(layout).Where(finding => finding.Code == "WU3002")];

    [Fact]
    public void Contact_that_leads_the_blades_shorts_in_mid_throw_and_the_words_say_so()
    {
        Finding found = Assert.Single(Shorts(Turnout(early: true)));
        Assert.Equal("through>diverging", Assert.Single(found.Turnouts).Value);
        Assert.Contains("while \"T1\" moves from through to diverging", found.Message, StringComparison.Ordinal);
        Assert.Contains("breaks before it makes", found.Remedy, StringComparison.Ordinal);
        Assert.Contains("T1/frog", found.Path);
        Assert.Equal(["f1/A", "f1/B"], new[] { found.Path[0], found.Path[^1] }.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Contact_in_the_middle_of_the_throw_does_not_short() => Assert.Empty(Shorts(Turnout(early: false)));

    [Fact]
    public void Frog_that_no_blade_touches_may_change_over_early() => Assert.Empty(Shorts(Turnout(early: true, FrogKind.Isolated)));

    [Fact]
    public void Words_name_moving_and_standing_turnouts_apart()
    {
        ImmutableSortedDictionary<PieceId, string> both = ImmutableSortedDictionary<PieceId, string>.Empty
            .Add(new("T1"), "left>right").Add(new("T2"), "through").Add(new("T3"), "diverging");
        Assert.Equal("while \"T1\" moves from left to right, with \"T2\" set to through and \"T3\" to diverging", Words.When(both));
        Assert.Equal("when \"T2\" is set to through and \"T3\" to diverging", Words.When(both.Remove(new PieceId("T1"))));
    }
}
