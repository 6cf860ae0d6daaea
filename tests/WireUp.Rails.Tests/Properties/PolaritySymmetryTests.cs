using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>Answers that must not move when a random layout of turnouts is mirrored or its file is put in another order.</summary>
public sealed class PolaritySymmetryTests
{
    private const int Layouts = 200;

    private static readonly ImmutableArray<(int Seed, Layout Layout, PolarityReport Report)> Cases =
        [.. Enumerable.Range(1, Layouts).Select(seed => (seed, RandomPlan.Of(seed))).Select(pair => (pair.seed, pair.Item2, Look(pair.Item2)))];

    private static PolarityReport Look(Layout layout) =>
        Polarity.Analyse(RailGraph.Build(layout), cancellationToken: TestContext.Current.CancellationToken);

    private static bool Conflicts(PolarityReport report) => report.OddLoops.Length + report.Exchanged.Length
        + report.FrogFaults.Length + report.Standing.Length + report.ByPosition.Length > 0;

    [Fact]
    public void Mirroring_a_layout_changes_no_count()
    {
        foreach ((int seed, Layout layout, PolarityReport report) in Cases)
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
        foreach ((int seed, Layout layout, PolarityReport report) in Cases)
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
