using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>Small random layouts full of gaps, fed from three districts of which one swaps, and what is left of them when gaps are closed.</summary>
internal static class GapPlans
{
    public static Layout Of(int seed)
    {
        Random random = new(seed);
        PlanBuilder plan = new PlanBuilder().District("d").District("e").District("r", reversing: true);
        List<string> ends = [];
        int turnouts = random.Next(1, 5), sections = random.Next(2, 6);
        for (int i = 1; i <= turnouts; i++)
        {
            TurnoutHand hand = (TurnoutHand)random.Next(3);
            FrogKind frog = (FrogKind)(random.Next(5) is var kind and < 2 ? kind : 2);
            plan.Turnouts($"T{i}", hand, frog, random.Next(2) == 0 ? FrogFeed.Contact : FrogFeed.None);
            ends.AddRange(new Piece.Turnout(new($"T{i}"), hand, frog).Ends.Select(end => end.ToString()));
        }

        for (int i = 1; i <= sections; i++)
        {
            plan.Sections($"s{i}");
            ends.AddRange([$"s{i}.a", $"s{i}.b"]);
            if (random.Next(2) == 0)
            {
                plan.Gap($"s{i}@0.5", (RailSet)random.Next(1, 4));
            }

            if (random.Next(3) > 0)
            {
                plan.Feed(random.Next(6) switch { < 4 => "d", 4 => "e", _ => "r" }, $"s{i}@1{(random.Next(4) == 0 ? "!" : "")}");
            }
        }

        string[] shuffled = [.. ends];
        random.Shuffle(shuffled);
        for (int i = 0; i + 1 < shuffled.Length - random.Next(3); i += 2)
        {
            plan.Chain($"{shuffled[i]} > {shuffled[i + 1]}");
            if (random.Next(4) > 0)
            {
                plan.Gap(shuffled[i + random.Next(2)], random.Next(3) == 0 ? (RailSet)random.Next(1, 3) : RailSet.Both);
            }
        }

        return plan.Build();
    }

    public static PolarityReport Look(Layout layout) =>
        Polarity.Analyse(RailGraph.Build(layout), cancellationToken: TestContext.Current.CancellationToken);

    public static ImmutableArray<GapPurpose> Purposes(Layout layout) =>
        GapPurposes.Find(RailGraph.Build(layout), TestContext.Current.CancellationToken);

    public static bool Conflicts(PolarityReport report) => report.OddLoops.Length + report.Exchanged.Length
        + report.FrogFaults.Length + report.Standing.Length + report.ByPosition.Length > 0;

    /// <summary>The layout with one gap closed: every cut and insulation of that rail at that place.</summary>
    public static Layout Close(Layout layout, GapRail closed)
    {
        LayoutIndex index = new(layout);
        return layout with
        {
            Wiring = layout.Wiring with { Gaps = [.. layout.Wiring.Gaps.Select(gap => gap with { Rails = gap.Rails & ~At(index, gap.At, closed) })] },
            Joints = [.. layout.Joints.Select(joint => joint with { Insulated = joint.Insulated & ~At(index, new GapPlace.InJoint(joint.First), closed) })],
        };
    }

    /// <summary>The closed rail, if it is at that place, seen as from that place.</summary>
    private static RailSet At(LayoutIndex index, GapPlace place, GapRail closed)
    {
        RailSet rail = closed.Side is RailSide.Left or RailSide.Centre ? RailSet.Left : RailSet.Right;
        return (place, closed.At) switch
        {
            (GapPlace.InJoint here, GapPlace.InJoint there) when here.End != there.End && index.Opposite(here.End) == there.End => rail.Across(index.Layout.Control),
            _ => place == closed.At ? rail : RailSet.None,
        };
    }
}
