using WireUp.Layouts;
using WireUp.Planning.Frogs;
using WireUp.Planning.Reversing;
using WireUp.Planning.Tests.Reversing;
using WireUp.Rails;

namespace WireUp.Planning.Tests.Frogs.Properties;

public sealed class FrogGapProperties
{
    private static (Layout Layout, ReversingPlan Reversing, FrogPlan Frogs) Planned(Layout layout)
    {
        var reversing = ReversingPlanner.Plan(layout, cancellation: TestContext.Current.CancellationToken);
        var frogs = FrogPlanner.Plan(layout.Wired(wiring => wiring with { Gaps = reversing.Gaps }));
        return (layout, reversing, frogs);
    }

    private static int Faults(Layout layout)
    {
        var report = Polarity.Analyse(RailGraph.Build(layout), cancellationToken: TestContext.Current.CancellationToken);
        Assert.Empty(report.Undecided);
        return report.Standing.Length + report.ByPosition.Length + report.FrogFaults.Length + report.Exchanged.Length;
    }

    [Fact]
    public void With_all_gaps_nothing_shorts_in_any_position_and_without_any_one_of_them_something_does()
    {
        int tried = 0;
        foreach (int seed in Enumerable.Range(1, 60))
        {
            (Layout layout, ReversingPlan reversing, FrogPlan frogs) = Planned(RandomTrack.Of(seed, 2 + (seed % 5), FrogKind.Live));
            if (!reversing.Remains.IsEmpty)
            {
                continue;
            }

            tried++;
            Assert.True(Faults(Fed.With(layout, reversing, frogs)) == 0, $"seed {seed} shorts");
            foreach (Gap gap in frogs.Gaps)
            {
                FrogPlan without = frogs with { Gaps = frogs.Gaps.Remove(gap) };
                Assert.True(Faults(Fed.With(layout, reversing, without)) > 0, $"seed {seed}: {gap} is not needed");
            }
        }

        Assert.True(tried >= 40, $"only {tried} of the random layouts had room for their reversing sections");
    }

    [Fact]
    public void With_all_gaps_nothing_shorts_at_any_trackwork_and_without_any_one_of_them_something_does()
    {
        int tried = 0, gaps = 0;
        foreach (int seed in Enumerable.Range(1, 90))
        {
            (Layout layout, ReversingPlan reversing, FrogPlan frogs) = Planned(Fed.Everywhere(RandomTrackwork.Of(seed, 1 + (seed % 3))));
            if (!reversing.Remains.IsEmpty || !frogs.Remains.IsEmpty)
            {
                continue;
            }

            tried++;
            gaps += frogs.Gaps.Length;
            Assert.True(Faults(Fed.With(layout, reversing, frogs)) == 0, $"seed {seed} shorts: {RandomTrackwork.Describe(layout)}");
            HashSet<PieceId> fed = [.. frogs.ApplyTo(layout).Track.Where(HasFedFrogs).Select(piece => piece.Id)];
            foreach (Gap gap in frogs.Gaps.Where(gap => fed.Contains(((GapPlace.InJoint)gap.At).End.Piece)))
            {
                FrogPlan without = frogs with { Gaps = frogs.Gaps.Remove(gap) };
                Assert.True(Faults(Fed.With(layout, reversing, without)) > 0, $"seed {seed}: {gap} is not needed: {RandomTrackwork.Describe(layout)}");
            }
        }

        TestContext.Current.TestOutputHelper!.WriteLine($"{tried} layouts, {gaps} gaps");
        // One frog that nothing feeds may well touch one rail: it shorts only under wheels, in the position that asks for the other.
        static bool HasFedFrogs(Piece piece) => FollowingConductor.Of(piece, ControlSystem.Command).All(frog => !frog.Positions.IsEmpty);

        Assert.True(tried >= 40 && gaps >= 40, $"only {tried} layouts with {gaps} gaps");
    }
}
