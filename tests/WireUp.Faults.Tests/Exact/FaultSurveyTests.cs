using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Faults.Tests.Exact;

public sealed class FaultSurveyTests
{
    private static readonly ElectricCurrent Load = ElectricCurrent.FromAmperes(0.5);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private static readonly ImmutableArray<SurveyRow> Rows = FaultSurvey.Of(SmallLayout.Layout, FaultPriors.Usual, Load, 100);

    [Fact]
    public void A_healthy_joiner_shows_its_resistance_times_the_current_of_the_load()
    {
        SurveyRow row = Rows.Single(row => row.Part.Place == "joint spur-1.b–spur-2.a, left rail");

        // The load is a resistor of 29 ohm; what is before it is less than 1 ohm, so 0.48 to 0.5 A flow through 10 mohm.
        Assert.InRange(row.Expected.Millivolts, 4.8, 5.0);
        Assert.InRange(row.Suspect.Millivolts, 3 * 4.8, 3 * 5.0);
        Assert.Equal("spur-1.b/left", row.Reading.From.ToString());
        Assert.Equal("spur-2.a/right", row.Reading.To.ToString());
    }

    [Fact]
    public void The_worthiest_come_first_and_each_once()
    {
        Assert.Equal(Rows.Select(row => row.Worth).OrderDescending(), Rows.Select(row => row.Worth));
        Assert.Equal(Rows.Length, Rows.Select(row => row.Part.Place).Distinct().Count());
        Assert.Equal(Rows.Take(3).Select(row => row.Part), FaultSurvey.Of(SmallLayout.Layout, FaultPriors.Usual, Load, 3, Cancel).Select(row => row.Part));
    }

    [Fact]
    public void What_a_measurement_is_worth_is_chance_times_volts_by_minute() =>
        Assert.Equal(0.25, (Rows[0] with { Probability = 0.5, LostVolts = ElectricPotential.FromVolts(2), Minutes = 4 }).Worth, 1e-12);

    [Fact]
    public void A_joint_that_nothing_leads_round_costs_most_of_the_volts_beyond_it_when_it_opens() =>
        Assert.InRange(Rows.Single(row => row.Part.Place == "joint spur-2.b–spur-3.a, left rail").LostVolts.Volts, 4, 14.5);

    [Fact]
    public void A_joint_that_failed_before_is_worth_more()
    {
        const string Joint = "joint spur-2.b–spur-3.a, left rail";
        FaultPriors learned = FaultHistory.Learn(SmallLayout.Layout, FaultPriors.Usual, new([new(Joint, FaultElementKind.Joiner, new(2026, 3, 1), "crimped")]));
        Assert.Equal(Joint, FaultSurvey.Of(SmallLayout.Layout, learned, Load, 1, Cancel)[0].Part.Place);
    }

    [Fact]
    public void A_layout_without_a_booster_has_no_survey() =>
        Assert.Empty(FaultSurvey.Of(SmallLayout.Layout with { Wiring = Wiring.None }, FaultPriors.Usual, Load, 10, Cancel));
}
