using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>The search for shorts by position, on contacts put together freely with hand switches: what is asked there has any difficulty there is.</summary>
public sealed class SearchTests
{
    internal static PolarityReport Look(Layout layout, long? budget = null) => Polarity.Analyse(
        RailGraph.Build(layout), budget is { } steps ? new() { SearchBudget = steps } : null, TestContext.Current.CancellationToken);

    [Fact]
    public void Switches_that_can_satisfy_every_clause_let_the_supplies_meet_in_such_positions()
    {
        int[][] clauses = [[1, 2, 3], [-1, 2, -3], [-2, 3, 1], [-1, -2, 3]];
        PolarityReport report = Look(HardPlans.Clauses(3, clauses));
        Assert.NotEmpty(report.ByPosition);
        Assert.Empty(report.Undecided);
        Assert.All(report.ByPosition, meeting => Assert.All(clauses, clause => Assert.Contains(clause, literal =>
            meeting.Turnouts.GetValueOrDefault(new(TrackMaker.Name("V", Math.Abs(literal)))) == (literal > 0 ? "on" : "off"))));
    }

    [Fact]
    public void Switches_that_can_not_satisfy_every_clause_keep_the_supplies_apart()
    {
        // All eight clauses over three variables: each assignment breaks one of them.
        int[][] clauses = [.. Enumerable.Range(0, 8).Select(bits => new[] { Sign(bits, 0), Sign(bits, 1), Sign(bits, 2) })];
        PolarityReport report = Look(HardPlans.Clauses(3, clauses));
        Assert.Empty(report.ByPosition);
        Assert.Empty(report.Undecided);

        static int Sign(int bits, int variable) => (bits >> variable & 1) == 0 ? variable + 1 : -(variable + 1);
    }

    [Fact]
    public void Search_that_is_given_up_says_at_which_switches()
    {
        Layout layout = HardPlans.Clauses(4, [[1, 2], [3, 4], [-1, -2]]);
        Assert.NotEmpty(Look(layout, budget: 1).Undecided);
        Assert.Empty(Look(layout).Undecided);
    }
}
