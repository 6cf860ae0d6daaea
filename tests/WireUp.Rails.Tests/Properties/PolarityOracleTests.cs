using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>The engine against paint, on some hundreds of random layouts: nothing missed, nothing invented, no position too many.</summary>
public sealed class PolarityOracleTests
{
    private const int Layouts = 600;

    private static readonly ImmutableArray<(int Seed, Layout Layout, PolarityReport Report)> Cases =
        [.. Enumerable.Range(1, Layouts).Select(seed => (seed, RandomPlan.Of(seed))).Select(pair => (pair.seed, pair.Item2, Look(pair.Item2)))];

    private static PolarityReport Look(Layout layout) =>
        Polarity.Analyse(RailGraph.Build(layout), cancellationToken: TestContext.Current.CancellationToken);

    private static bool Conflicts(PolarityReport report) => report.OddLoops.Length + report.Exchanged.Length
        + report.FrogFaults.Length + report.Standing.Length + report.ByPosition.Length > 0;

    [Fact]
    public void Every_layout_that_paint_shorts_in_some_position_is_reported()
    {
        int shorted = 0;
        foreach ((int seed, Layout layout, PolarityReport report) in Cases)
        {
            PaintOracle oracle = new(layout);
            if (oracle.AllPositions().Any(oracle.Shorts))
            {
                shorted++;
                Assert.True(Conflicts(report), $"seed {seed}");
            }

            Assert.Empty(report.Undecided);
        }

        Assert.InRange(shorted, Layouts / 10, Layouts * 9 / 10);
    }

    [Fact]
    public void Every_standing_meeting_is_one_in_paint_whatever_the_positions()
    {
        int met = 0;
        foreach ((int seed, Layout layout, PolarityReport report) in Cases)
        {
            PaintOracle oracle = new(layout);
            IEnumerable<RailMeeting> standing = report.Standing.Concat(report.Exchanged.Select(each => each.Short).OfType<RailMeeting>());
            foreach (RailMeeting meeting in standing)
            {
                met++;
                Assert.True(oracle.Touch(meeting.From.ToString(), meeting.To.ToString(), new Dictionary<PieceId, string>()), $"seed {seed}");
            }

            foreach (ImmutableArray<RailPoint> path in report.OddLoops.Select(loop => loop.Path).Concat(report.FrogFaults.Select(fault => fault.Path)))
            {
                met++;
                Assert.True(path.IsEmpty || oracle.Touch(path[0].ToString()!, path[^1].ToString()!, new Dictionary<PieceId, string>()), $"seed {seed}");
            }
        }

        Assert.True(met > Layouts / 10);
    }

    [Fact]
    public void Every_meeting_by_position_is_one_in_paint_and_needs_each_of_its_positions()
    {
        int met = 0, minimal = 0;
        foreach ((int seed, Layout layout, PolarityReport report) in Cases)
        {
            PaintOracle oracle = new(layout);
            foreach (RailMeeting meeting in report.ByPosition)
            {
                met++;
                bool Meet(ImmutableSortedDictionary<PieceId, string> positions) =>
                    oracle.Touch(meeting.From.ToString(), meeting.To.ToString(), positions);
                Assert.True(Meet(meeting.Turnouts), $"seed {seed}");

                // Where something stands always, the wires may meet through that as well: see the remarks of PolarityReport.
                bool stands = report.OddLoops.Length + report.Exchanged.Length + report.FrogFaults.Length + report.Standing.Length > 0;
                minimal += stands ? 0 : 1;
                Assert.All(stands ? [] : meeting.Turnouts.Keys, turnout => Assert.False(Meet(meeting.Turnouts.Remove(turnout)), $"seed {seed}: {turnout}"));
            }
        }

        Assert.True(met > Layouts / 20 && minimal > Layouts / 40, $"{met} {minimal}");
    }

    [Fact]
    public void Rails_without_feed_are_those_that_stay_dry()
    {
        foreach ((int seed, Layout layout, PolarityReport report) in Cases)
        {
            IEnumerable<string> unfed = report.Unfed
                .Where(rail => rail.FromMetres < RandomPlan.FeedMetres && rail.ToMetres > RandomPlan.FeedMetres)
                .Select(rail => $"{rail.Section}|{(rail.Side == RailSide.Left ? "L" : "R")}");
            Assert.True(new PaintOracle(layout).Dry().ToHashSet().SetEquals(unfed), $"seed {seed}");
        }
    }

    [Fact]
    public void Mirroring_a_layout_changes_no_count()
    {
        foreach ((int seed, Layout layout, PolarityReport report) in Cases.Take(200))
        {
            Layout mirrored = layout with
            {
                Track = [.. layout.Track.Select(piece => piece is Piece.Turnout turnout ? Mirrored(turnout) : piece)],
                Joints = [.. layout.Joints.Select(joint => joint with { First = Mirrored(layout, joint.First), Second = Mirrored(layout, joint.Second) })],
                Wiring = layout.Wiring with
                {
                    Gaps = [.. layout.Wiring.Gaps.Select(gap => new Gap(
                        gap.At is GapPlace.InJoint at ? new GapPlace.InJoint(Mirrored(layout, at.End)) : gap.At, Mirrored(gap.Rails)))],
                    Feeders = [.. layout.Wiring.Feeders.Select(feeder => feeder with { Swap = !feeder.Swap })],
                },
            };
            Assert.True(Counts(report) == Counts(Look(mirrored)), $"seed {seed}");
        }
    }

    [Fact]
    public void The_order_of_the_file_changes_neither_what_is_unfed_nor_whether_there_is_a_conflict()
    {
        foreach ((int seed, Layout layout, PolarityReport report) in Cases.Take(200))
        {
            PolarityReport reordered = Look(layout with
            {
                Track = [.. layout.Track.Reverse()],
                Joints = [.. layout.Joints.Reverse()],
                Wiring = layout.Wiring with { Feeders = [.. layout.Wiring.Feeders.Reverse()], Gaps = [.. layout.Wiring.Gaps.Reverse()] },
            });
            Assert.True(Conflicts(report) == Conflicts(reordered), $"seed {seed}");
            Assert.True(report.Unfed.ToHashSet().SetEquals(reordered.Unfed), $"seed {seed}");
        }
    }

    private static (int, int, int, int, int, int) Counts(PolarityReport report) => (
        report.OddLoops.Length, report.Exchanged.Length, report.FrogFaults.Length, report.Standing.Length, report.ByPosition.Length, report.Unfed.Length);

    private static Piece.Turnout Mirrored(Piece.Turnout turnout) => turnout.Hand == TurnoutHand.Wye
        ? turnout
        : new(turnout.Id, turnout.Hand == TurnoutHand.Left ? TurnoutHand.Right : TurnoutHand.Left, turnout.Frog) { Feed = turnout.Feed };

    /// <summary>A wye stays a wye; what was at its left leg is at its right leg.</summary>
    private static TrackEnd Mirrored(Layout layout, TrackEnd end) =>
        layout.Track.First(piece => piece.Id == end.Piece) is not Piece.Turnout { Hand: TurnoutHand.Wye } ? end : end.Name switch
        {
            "left" => end with { Name = "right" },
            "right" => end with { Name = "left" },
            _ => end,
        };

    private static RailSet Mirrored(RailSet rails) => rails switch { RailSet.Left => RailSet.Right, RailSet.Right => RailSet.Left, _ => rails };
}
