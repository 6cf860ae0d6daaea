using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>The search for shorts by position on plans that ask much of it.</summary>
public sealed class LongSearchTests
{
    [Fact]
    public void A_question_too_hard_for_the_budget_is_given_up_and_the_others_are_answered()
    {
        // Far more clauses than can be satisfied, over forty switches; beside it, on other track, one plain short by position.
        Random random = new(3);
        int[][] clauses =
        [
            .. Enumerable.Range(0, 400).Select(_ => Enumerable.Range(0, 3).Select(_ => random.Next(1, 41) * (random.Next(2) == 0 ? 1 : -1)).ToArray()),
        ];
        Layout hard = HardPlans.Clauses(40, clauses), easy = Plans.OvalWithSiding(FrogKind.Live).Feed("d", "ring@1", "siding@1").Build();
        Layout both = hard with
        {
            Track = [.. hard.Track, .. easy.Track],
            Joints = [.. hard.Joints, .. easy.Joints],
            Wiring = hard.Wiring with { Feeders = [.. hard.Wiring.Feeders, .. easy.Wiring.Feeders.Select(feeder => feeder with { Name = $"g{feeder.Name}" })] },
        };
        PolarityReport report = SearchTests.Look(both, budget: 500_000);
        Assert.Contains(report.Undecided, owner => owner.Name.StartsWith('V'));
        Assert.Contains(report.ByPosition, meeting => meeting.Turnouts.ContainsKey(new("T1")));
        Assert.DoesNotContain(new PieceId("T1"), report.Undecided);
    }

    [Theory]
    [InlineData(200)]
    [InlineData(400)]
    public void Ladders_and_yards_of_live_turnouts_without_gaps_are_decided_without_telling_cases_apart(int turnouts)
    {
        foreach (Layout layout in new[]
        {
            HardPlans.Ladder(turnouts, fedRoads: false), HardPlans.Yard(turnouts, 0), HardPlans.Yard(turnouts, 10),
            HardPlans.Crossovers(turnouts, fedEverywhere: false),
        })
        {
            Assert.Empty(SearchTests.Look(layout, budget: 0).Undecided);
        }
    }

    [Fact]
    public void A_tangle_of_live_turnouts_is_decided_exactly_whatever_the_budget()
    {
        int met = 0;
        for (int seed = 1; seed <= 20; seed++)
        {
            Layout layout = HardPlans.Tangle(60, 4, seed);
            PolarityReport cheap = SearchTests.Look(layout, budget: 0), full = SearchTests.Look(layout);
            Assert.Empty(cheap.Undecided);
            Assert.Empty(full.Undecided);
            Assert.Equal(full.ByPosition.IsEmpty, cheap.ByPosition.IsEmpty);
            Assert.All(cheap.ByPosition.Concat(full.ByPosition), meeting => Assert.True(Meet(layout, meeting), $"seed {seed}"));
            met += cheap.ByPosition.Length;
        }

        Assert.True(met > 20, $"{met}");
    }

    /// <summary>Whether the wires of a meeting do meet when its turnouts stand as it says.</summary>
    private static bool Meet(Layout layout, RailMeeting meeting)
    {
        Properties.WalkOracle oracle = new(layout);
        Dictionary<PieceId, string> stand = oracle.Owners.ToDictionary(owner => owner.Id, owner => meeting.Turnouts.GetValueOrDefault(owner.Id, owner.Positions[0]));
        return oracle.In(stand).Meets(meeting.From.ToString(), meeting.To.ToString());
    }
}
