using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Hand reversing switches: two feeders of one district to one section, one of them with its wires exchanged, in two positions of one
/// switch.
/// </summary>
public static class ReversingSwitches
{
    /// <summary>Every feeder that is one throw of such a switch, in the order of the layout.</summary>
    public static IEnumerable<Feeder> Throws(Wiring wiring) => wiring.Feeders.Where(feeder => IsThrow(wiring, feeder));

    /// <summary>Whether a feeder is one throw of such a switch.</summary>
    public static bool IsThrow(Wiring wiring, Feeder feeder) => OtherThrow(wiring, feeder) is not null;

    /// <summary>The feeder that feeds the same track the other way round in another position of the same switch, or null.</summary>
    public static Feeder? OtherThrow(Wiring wiring, Feeder feeder) => feeder.When is not { } when
        ? null
        : wiring.Feeders.FirstOrDefault(other => other.When is { } otherwise
            && otherwise.Owner == when.Owner && otherwise.Position != when.Position
            && other.District == feeder.District && other.At.Section == feeder.At.Section && other.Swap != feeder.Swap);
}
