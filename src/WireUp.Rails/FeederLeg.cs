using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>One wire of a feeder, as a source of polarity.</summary>
/// <param name="Feeder">The feeder.</param>
/// <param name="District">The district it belongs to.</param>
/// <param name="Leg">Which side of the district's supply the wire carries.</param>
public readonly record struct FeederLeg(string Feeder, string District, Leg Leg)
{
    /// <summary>Whether two wires bring the same side of the same district's supply, by whichever feeder.</summary>
    public bool IsLike(FeederLeg other) => District == other.District && Leg == other.Leg;

    /// <summary>As written in results: <c>f1/A</c>.</summary>
    public override string ToString() => $"{Feeder}/{Leg}";
}

/// <summary>Where feeders meet the rails.</summary>
public static class FeederPoints
{
    /// <summary>
    /// The nodes that a feeder's two wires are soldered to. At the very place of a gap that is the side towards the section's end b.
    /// </summary>
    /// <remarks>Where a contact connects the feeder, the ends of its wires before the contact; at a bridge with a split ring, the halves of the ring.</remarks>
    public static (int LegA, int LegB) Of(RailGraph graph, Feeder feeder)
    {
        if (graph.NodeOfWire(feeder.Name, Leg.A) is { } wireA && graph.NodeOfWire(feeder.Name, Leg.B) is { } wireB)
        {
            return (wireA, wireB);
        }

        (RailSide first, RailSide second) = RailSides.Of(graph.Layout.Control);
        if (graph.NodeInside(feeder.At.Section, RingHalf(first)) is { } one && graph.NodeInside(feeder.At.Section, RingHalf(second)) is { } other)
        {
            return feeder.Swap ? (other, one) : (one, other);
        }

        Station station = graph.StationAt(feeder.At);
        return feeder.Swap
            ? (station.SecondTowardsB, station.FirstTowardsB)
            : (station.FirstTowardsB, station.SecondTowardsB);
    }

    internal static string RingHalf(RailSide side) => TrackworkRows.Turntables.Bridge("ring", side).Name;
}
