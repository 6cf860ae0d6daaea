using WireUp.Layouts;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Properties;

/// <summary>What must change no figure of a whole plan. (Other names and another order of the file: beside the other properties.)</summary>
public sealed class SamePlanProperties
{
    [Fact]
    public void A_layout_seen_in_a_mirror_has_the_same_objectives()
    {
        for (int seed = 0; seed < 40; seed++)
        {
            Layout layout = RandomTrack.Make(seed, 3 + (seed % 9));
            Assert.True(Objectives(layout).SequenceEqual(Objectives(Mirrored(layout))), $"seed {seed}");
        }
    }

    [Fact]
    public void Track_beside_the_railway_that_is_one_piece_of_its_own_adds_its_own_feeders_only()
    {
        for (int seed = 0; seed < 20; seed++)
        {
            Layout layout = RandomTrack.Make(seed, 3 + (seed % 9));
            double reach = layout.MaxFeederDistance.Meters;

            // One feeder reaches so far to both sides of it.
            Layout beside = layout with { Track = [.. layout.Track, new Piece.Section(new("z"), UnitsNet.Length.FromMeters(1.9 * reach))] };
            Assert.Equal(Cover(layout) + 1, Cover(beside));
        }
    }

    private static double Cover(Layout layout) =>
        Planner.Plan(layout, cancel: TestContext.Current.CancellationToken).Objectives.First(objective => objective.Name == "feeders").Bound;

    private static IEnumerable<(string Name, double Value, double Bound)> Objectives(Layout layout) =>
        Planner.Plan(layout, cancel: TestContext.Current.CancellationToken)
            .Objectives.Select(objective => (objective.Name, Math.Round(objective.Value, 2), Math.Round(objective.Bound, 2)));

    private static Layout Mirrored(Layout layout) => layout with
    {
        Track = [.. layout.Track.Select(piece => piece is Piece.Turnout turnout
            ? turnout with { Hand = turnout.Hand == TurnoutHand.Left ? TurnoutHand.Right : TurnoutHand.Left }
            : piece)],
        Joints = [.. layout.Joints.Select(joint => joint with { Insulated = Mirrored(joint.Insulated) })],
        Wiring = layout.Wiring with { Gaps = [.. layout.Wiring.Gaps.Select(gap => gap with { Rails = Mirrored(gap.Rails) })] },
    };

    private static RailSet Mirrored(RailSet rails) =>
        (rails.HasFlag(RailSet.Left) ? RailSet.Right : RailSet.None) | (rails.HasFlag(RailSet.Right) ? RailSet.Left : RailSet.None);
}
