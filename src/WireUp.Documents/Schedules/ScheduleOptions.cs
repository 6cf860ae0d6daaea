using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>How a wiring schedule is made. The allowances are common practice, no published source.</summary>
public sealed record ScheduleOptions
{
    /// <summary>The usual, in whole inches where lengths are told in feet.</summary>
    /// <param name="lengths">In which units lengths are told.</param>
    public static ScheduleOptions For(LengthStyle lengths) => lengths == LengthStyle.Feet
        ? new() { EndAllowance = Length.FromInches(1.25), Step = Length.FromInches(1), FrogWireLength = Length.FromInches(12) }
        : new();

    /// <summary>Slack as a part of a wire's length, so that a run can sag and turn corners.</summary>
    public Ratio Slack { get; init; } = Ratio.FromPercent(5);

    /// <summary>Length added at each end for stripping, a terminal and one second try.</summary>
    public Length EndAllowance { get; init; } = Length.FromMillimeters(30);

    /// <summary>Cut lengths are rounded up to a multiple of this.</summary>
    public Length Step { get; init; } = Length.FromMillimeters(10);

    /// <summary>Length of each wire between a frog, its contact and the rail it takes its current from.</summary>
    public Length FrogWireLength { get; init; } = Length.FromMillimeters(300);

    /// <summary>Wire of frogs, or null for that of most feeders.</summary>
    public Wire? FrogWire { get; init; }
}
