using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Audit;

public sealed class LargeLayoutTests
{
    private const int Crossovers = 60;

    /// <summary>
    /// Two concentric ovals with sixty crossovers, all in running sense, and two reversing cut-offs inside: 124 turnouts in one
    /// 2-connected block with two odd cycles that matter.
    /// </summary>
    private static Layout TwoCutOffsAmongManyCrossovers()
    {
        List<string> pieces = [], chains = [];
        for (int i = 0; i < Crossovers; i++)
        {
            int next = (i + 1) % Crossovers;
            pieces.Add($"o{i} 1.5; i{i} 1.5; x{i} 0.3; A{i} left; B{i} left");
            chains.Add($"A{i}.diverging > x{i} > B{i}.diverging");
            chains.Add($"A{i}.through > o{i} > A{next}.points");
            if (i % (Crossovers / 2) == 0)
            {
                pieces.Add($"c{i} 2; C{i} right; D{i} right; ia{i} 1; ib{i} 1");
                chains.AddRange([$"B{i}.points > i{i} > C{i}.points", $"C{i}.through > ia{i} > D{i}.points"]);
                chains.AddRange([$"D{i}.through > ib{i} > B{next}.through", $"C{i}.diverging > c{i} > D{i}.diverging"]);
            }
            else
            {
                chains.Add($"B{i}.points > i{i} > B{next}.through");
            }
        }

        return Track.Of(string.Join("; ", pieces), [.. chains]);
    }

    [Fact]
    public void Each_cut_off_among_many_even_cycles_becomes_a_section_and_the_plan_is_proved()
    {
        var plan = ReversingPlanner.Plan(TwoCutOffsAmongManyCrossovers(), cancellation: TestContext.Current.CancellationToken);
        Assert.Empty(plan.Remains);
        Assert.Equal(["c0", "c30"], plan.Sections.Select(section => section.Stretches.Single().Section.Name));
        Assert.Equal([new Objective("reversing-sections", 2, 2), new Objective("reversing-gaps", 8, 8), new Objective("reversing-borders", 4, 4)], plan.Objectives);
    }
}
