using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Properties;

/// <summary>Changes to a layout that must change nothing, or only one way.</summary>
public sealed class LayoutTests
{
    public static TheoryData<int> Seeds => RandomPlans.PlainSeeds;

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Order_of_pieces_joints_and_wires_does_not_matter(int seed)
    {
        (Layout layout, PowerOptions options) = RandomPlans.Make(seed);
        Layout turned = layout with
        {
            Track = [.. layout.Track.Reverse()],
            Joints = [.. layout.Joints.Reverse()],
            Wiring = layout.Wiring with
            {
                Buses = [.. layout.Wiring.Buses.Reverse()],
                Feeders = [.. layout.Wiring.Feeders.Reverse()],
                Gaps = [.. layout.Wiring.Gaps.Reverse()],
            },
        };
        (PowerReport one, PowerReport other) = (Solve(layout, options), Solve(turned, options));
        Same(one, other);
        Assert.All(one.Places.Zip(other.Places), pair => Close(pair.First.Volts.Volts, pair.Second.Volts.Volts));
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Two_runs_give_the_same_report(int seed)
    {
        (Layout layout, PowerOptions options) = RandomPlans.Make(seed);
        (PowerReport one, PowerReport other) = (Solve(layout, options), Solve(layout, options));
        Assert.Equal(one.Districts.AsEnumerable(), other.Districts);
        Assert.Equal(one.Sections.AsEnumerable(), other.Sections);
        Assert.Equal(one.Places.AsEnumerable(), other.Places);
        Assert.Equal(one.Unfed.AsEnumerable(), other.Unfed);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Joints_written_the_other_way_round_are_the_same_joints(int seed)
    {
        (Layout layout, PowerOptions options) = RandomPlans.Make(seed);
        Layout turned = layout with
        {
            Joints = [.. layout.Joints.Select(joint => joint with
            {
                First = joint.Second,
                Second = joint.First,
                Insulated = Mirror(joint.Insulated),
            })],
        };
        Same(Solve(layout, options), Solve(turned, options));
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void More_copper_never_lowers_a_fault_current(int seed)
    {
        (Layout layout, _) = RandomPlans.Make(seed);
        Layout thicker = layout with
        {
            Wiring = layout.Wiring with
            {
                Buses = [.. layout.Wiring.Buses.Select(bus => bus with { Runs = [.. bus.Runs.Select(run => run with { Wire = new Wire.Awg(8) })] })],
            },
        };

        // Rayleigh: less resistance anywhere never raises the resistance seen.
        Dictionary<PieceId, double> before = Solve(layout, PowerOptions.Default).Sections.ToDictionary(s => s.Section, s => s.LargestLoop.FaultCurrent.Amperes);
        foreach (SectionPower section in Solve(thicker, PowerOptions.Default).Sections)
        {
            Assert.True(section.LargestLoop.FaultCurrent.Amperes >= before[section.Section] - 1e-9);
        }
    }

    private static void Same(PowerReport one, PowerReport other)
    {
        Assert.Equal(one.Districts.Select(d => d.District).Order(StringComparer.Ordinal), other.Districts.Select(d => d.District).Order(StringComparer.Ordinal));
        foreach (DistrictPower district in one.Districts)
        {
            DistrictPower twin = other.Districts.Single(d => d.District == district.District);
            Close(district.DesignLoad.Amperes, twin.DesignLoad.Amperes);
            Close(district.LowestVolts.Volts.Volts, twin.LowestVolts.Volts.Volts);
            Close(district.LowestFault.FaultCurrent.Amperes, twin.LowestFault.FaultCurrent.Amperes);
            Close(district.LowestFault.Loop.Ohms, twin.LowestFault.Loop.Ohms);
        }

        Assert.Equal(one.Sections.Select(s => s.Section).Order(), other.Sections.Select(s => s.Section).Order());
        foreach (SectionPower section in one.Sections)
        {
            Close(section.LargestLoop.Loop.Ohms, other.Sections.Single(s => s.Section == section.Section).LargestLoop.Loop.Ohms);
        }
    }

    private static RailSet Mirror(RailSet set) => set switch { RailSet.Left => RailSet.Right, RailSet.Right => RailSet.Left, _ => set };

    private static PowerReport Solve(Layout layout, PowerOptions options) =>
        PowerAnalysis.Solve(layout, options, TestContext.Current.CancellationToken);

    private static void Close(double expected, double actual) => Assert.Equal(expected, actual, 1e-9 * (1 + Math.Abs(expected)));
}
