using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>In which positions track has no current: told positions against trying every one.</summary>
public sealed class DeadTrackTests
{
    [Fact]
    public void Track_told_as_switched_is_dead_in_the_positions_told_and_in_none_where_none_are_told()
    {
        int dead = 0;
        foreach ((int seed, Layout layout) in Enumerable.Range(1, 900).SelectMany(seed => new[] { (seed, GapPlans.Of(seed)), (seed, RandomPlan.Of(seed)) }))
        {
            PolarityReport report = GapPlans.Look(layout);
            foreach (SwitchedTrack track in GapPlans.Conflicts(report) ? [] : report.Switched)
            {
                Station station = report.Graph.Stations(track.Section).First(each => each.Metres >= track.FromMetres);
                bool IsLive(IReadOnlyDictionary<PieceId, string> positions)
                {
                    ImmutableArray<ImmutableSortedSet<string>> legs = Polarity.LegsIn(report.Graph, positions);
                    return legs[station.FirstTowardsB].Any(one => legs[station.SecondTowardsB].Any(other => one[..^1] == other[..^1] && one != other));
                }

                IEnumerable<ImmutableSortedDictionary<PieceId, string>> dark = Settings(report.Graph).Where(positions => !IsLive(positions));
                if (track.DeadWhen is { } told)
                {
                    dead++;
                    Assert.All(Settings(report.Graph).Where(positions => told.All(pair => positions.GetValueOrDefault(pair.Key, pair.Value) == pair.Value)), positions => Assert.False(IsLive(positions), $"seed {seed}: {track.Section} is live in {string.Join(' ', positions)} though told dead in {string.Join(' ', told)}"));
                    Assert.True(track.LiveWhen.IsEmpty || told.Count > 0, $"seed {seed}: {track.Section} is live when {string.Join(' ', track.LiveWhen)}");
                }
                else
                {
                    Assert.True(!dark.Any(), $"seed {seed}: {track.Section} is dead when {string.Join(' ', dark.First())}");
                }
            }
        }

        Assert.True(dead > 30, $"{dead}");
    }

    [Fact]
    public void Bridge_with_a_split_ring_has_current_in_every_position()
    {
        Layout layout = new PlanBuilder().Sections("lead").Feed("d", "lead@1").Build();
        PieceId table = new("TT");
        PolarityReport report = GapPlans.Look(layout with
        {
            Track = [.. layout.Track, new Piece.Turntable(table, 6, Length.FromMeters(0.3)) { Feed = BridgeFeed.SplitRing }],
            Joints = [new(new(new("lead"), "b"), new(table, "t1"))],
            Wiring = layout.Wiring with { Feeders = [.. layout.Wiring.Feeders, layout.Wiring.Feeders[0] with { Name = "f2", At = new(table, 0.15) }] },
        });
        SwitchedTrack bridge = Assert.Single(report.Switched, track => track.Section == table);
        Assert.NotEmpty(bridge.LiveWhen);
        Assert.Null(bridge.DeadWhen);
        Assert.Empty(report.Unfed);
    }

    [Fact]
    public void Bridge_fed_by_its_roads_is_dead_at_a_road_without_current()
    {
        Layout layout = new PlanBuilder().Sections("lead").Feed("d", "lead@1").Build();
        PieceId table = new("TT");
        PolarityReport report = GapPlans.Look(layout with
        {
            Track = [.. layout.Track, new Piece.Turntable(table, 6, Length.FromMeters(0.3)) { Feed = BridgeFeed.Roads }],
            Joints = [new(new(new("lead"), "b"), new(table, "t1"))],
        });
        SwitchedTrack bridge = Assert.Single(report.Switched, track => track.Section == table);
        Assert.Equal("t1", bridge.LiveWhen[table]);
        Assert.Equal("t2", bridge.DeadWhen![table]);
    }

    [Fact]
    public void Track_is_not_live_at_a_moment_of_mid_throw_only()
    {
        Layout layout = new PlanBuilder().Sections("toe left right").Turnouts("T1", frog: FrogKind.Live, feed: FrogFeed.Contact)
            .Chain("toe > T1.points").Chain("T1.through > left").Chain("T1.diverging > right").Feed("d", "toe@1").Build();
        PolarityReport report = GapPlans.Look(layout with
        {
            Track = [.. layout.Track.Select(piece => piece is Piece.Turnout turnout ? turnout with { EarlyContact = true } : piece)],
        });
        Assert.Equal(["through", "diverging"], report.Switched.Select(track => Assert.Single(track.LiveWhen).Value));
        Assert.Equal(["diverging", "through"], report.Switched.Select(track => Assert.Single(track.DeadWhen!).Value));
    }

    private static IEnumerable<ImmutableSortedDictionary<PieceId, string>> Settings(RailGraph graph) => graph.Links.OfType<RailLink.Contact>()
        .Select(contact => contact.Piece).Distinct().Order().Aggregate(
            (IEnumerable<ImmutableSortedDictionary<PieceId, string>>)[ImmutableSortedDictionary<PieceId, string>.Empty],
            (settings, piece) => settings.SelectMany(setting => graph.PositionsOf(piece).Select(position => setting.Add(piece, position))));
}
