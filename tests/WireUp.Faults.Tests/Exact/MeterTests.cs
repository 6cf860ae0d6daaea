using WireUp.Faults.Network;
using WireUp.Faults.Search;
using WireUp.Layouts;

namespace WireUp.Faults.Tests.Exact;

/// <summary>How far a meter may be out, where a locomotive changes its ways and a breaker opens, by the rows of shared/constants.csv; small systems of equations.</summary>
public sealed class MeterTests
{
    // 1 % of the reading, two digits of 1/2000 of the range (0.2, 2, 20 V), and 5 mV that leads pick up, or 0.5 mV on a limited supply.
    [Theory]
    [InlineData(0.2, false, 0.0072)]
    [InlineData(0.21, false, 0.0091)]
    [InlineData(2, false, 0.027)]
    [InlineData(14.4, false, 0.169)]
    [InlineData(-14.4, false, 0.169)]
    [InlineData(0.2, true, 0.0027)]
    public void Volts(double volts, bool isSteady, double off) => Assert.Equal(off, Meter.VoltsOff(MeterAccuracy.Usual, volts, isSteady), 1e-9);

    // 3 %, and two digits of ranges from 2 A.
    [Theory]
    [InlineData(0.5, 0.017)]
    [InlineData(-3, 0.11)]
    public void Amps(double amps, double off) => Assert.Equal(off, Meter.AmpsOff(MeterAccuracy.Usual, amps), 1e-9);

    // 1.5 %, two digits of ranges from 200 ohm, and 0.2 ohm of leads.
    [Theory]
    [InlineData(1, 0.415)]
    [InlineData(1000, 17.2)]
    public void Ohms(double ohms, double off) => Assert.Equal(off, Meter.OhmsOff(MeterAccuracy.Usual, ohms), 1e-9);

    [Fact]
    public void At_the_edge_between_two_ways_of_running_both_are_as_likely()
    {
        foreach ((double edge, RunningState above, RunningState below) in new[]
        {
            (0.8, RunningState.Runs, RunningState.Slows), (0.5, RunningState.Slows, RunningState.Stops), (0.2, RunningState.Stops, RunningState.Dead),
        })
        {
            Assert.Equal(0.5, Edges.Running(above, edge), 0.002);
            Assert.Equal(0.5, Edges.Running(below, edge), 0.002);
            Assert.True(Edges.Running(above, edge + 0.1) > 0.85 && Edges.Running(below, edge - 0.1) > 0.85);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.33)]
    [InlineData(0.77)]
    [InlineData(1)]
    public void A_locomotive_does_one_of_four_things(double part) => Assert.Equal(1, Enum.GetValues<RunningState>().Sum(state => Edges.Running(state, part)), 1e-12);

    [Fact]
    public void A_way_of_running_stands_for_the_middle_of_its_range() =>
        Assert.Equal([0.9, 0.65, 0.35, 0.1], new[] { RunningState.Runs, RunningState.Slows, RunningState.Stops, RunningState.Dead }.Select(state => Math.Round(Edges.Middle(state), 9)));

    // A logistic edge as wide as a tenth of the trip current: 1 / (1 + e^-1) = 0.731 a tenth above it.
    [Theory]
    [InlineData(3, 0.5)]
    [InlineData(-3, 0.5)]
    [InlineData(3.3, 0.7311)]
    [InlineData(2.7, 0.2689)]
    public void A_breaker_opens_at_about_its_trip_current(double amps, double chance) => Assert.Equal(chance, Edges.Trips(amps, 3), 1e-4);

    [Fact]
    public void A_buzzer_sounds_below_fifty_ohms_and_a_meter_shows_open_above_a_megohm()
    {
        Assert.Equal(0.5, Edges.Sounds(50), 1e-9);
        Assert.Equal(0.5, Edges.ShowsOpen(1e6), 1e-9);
        Assert.True(Edges.Sounds(0) > 0.999 && Edges.Sounds(500) < 0.001 && Edges.ShowsOpen(1e7) > 0.999 && Edges.ShowsOpen(1e5) < 0.001);
    }

    [Fact]
    public void Equations_are_solved_although_the_first_lacks_its_unknown()
    {
        // x = 1, y = -2, z = 3: 2y + z = -1; x + y + z = 2; 4x - y = 6.
        double[] answers = SmallSystem.Solve(new double[,] { { 0, 2, 1, -1 }, { 1, 1, 1, 2 }, { 4, -1, 0, 6 } });
        Assert.Equal([1, -2, 3], answers.Select(answer => Math.Round(answer, 9)));
    }
}
