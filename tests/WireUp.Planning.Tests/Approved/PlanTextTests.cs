using System.Globalization;
using System.Text;
using WireUp.Layouts;

namespace WireUp.Planning.Tests.Approved;

/// <summary>
/// Whole plans of the small sample layouts, wiring taken away, as they are known to be: every proposal with its reason, its working and
/// what else was weighed, what each thing minimised came to, and what remains.
/// </summary>
public sealed class PlanTextTests
{
    private const string Folder = "tests/WireUp.Planning.Tests/Approved";

    [Theory]
    [InlineData("balloon-loop")]
    [InlineData("wye")]
    [InlineData("oval-with-cut-off")]
    [InlineData("cinder-wharf")]
    [InlineData("two-cabs")]
    [InlineData("three-rail")]
    [InlineData("slate-branch")]
    [InlineData("trackwork/double-slip")]
    [InlineData("trackwork/three-way")]
    [InlineData("trackwork/turntable-roads")]
    [InlineData("hill-and-corridors")]
    [InlineData("home-yard")]
    [InlineData("two-modules")]
    [InlineData("programming-spur")]
    [InlineData("trackwork/scissors")]
    [InlineData("trackwork/lift-out")]
    public void Plan_of_a_sample_is_as_approved(string sample)
    {
        Layout layout = ExampleLayouts.Sample(sample), bare = layout with { Wiring = layout.Wiring with { Feeders = [], Gaps = [], Buses = [], Districts = [], Boosters = [], Supplies = [], Switches = [] } };
        ApprovedText.Matches(Told(Planner.Plan(sample == "two-cabs" ? layout : bare, cancel: TestContext.Current.CancellationToken)), $"{sample.Replace('/', '-')}.txt", Folder);
    }

    private static string Told(PlanResult plan)
    {
        StringBuilder text = new();
        foreach (Proposal proposal in plan.Proposals)
        {
            text.Append(CultureInfo.InvariantCulture, $"{proposal.Id} ({proposal.Kind}, {proposal.Cost:G5}) at {proposal.At}: {proposal.Reason}\n");
            foreach (string line in proposal.Working) text.Append(CultureInfo.InvariantCulture, $"    = {line}\n");
            foreach (string line in proposal.Alternatives) text.Append(CultureInfo.InvariantCulture, $"    or {line}\n");
        }

        foreach (Objective objective in plan.Objectives) text.Append(CultureInfo.InvariantCulture, $"{objective.Name}: {objective.Value:G5}, at least {objective.Bound:G5}\n");
        foreach (GaugeRow row in plan.Gauges) text.Append(CultureInfo.InvariantCulture, $"{row.District}, {row.Wire}: drop {row.Drop.Percent:G4} %, fault {row.FaultCurrent.Amperes:G4} A, planned {row.Planned.Meters:G4} m; {row.Verdict}\n");
        foreach (string line in plan.Remains) text.Append(CultureInfo.InvariantCulture, $"remains: {line}\n");
        text.Append(CultureInfo.InvariantCulture, $"{(plan.IsFinished ? "finished" : "unfinished")}; findings: {string.Join(' ', plan.Findings.Select(finding => finding.Code))}\n");
        return text.ToString();
    }
}
