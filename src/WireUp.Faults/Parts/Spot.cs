namespace WireUp.Faults.Parts;

/// <summary>Where a part is in a circuit, whatever the case.</summary>
internal abstract record Spot
{
    private Spot()
    {
    }

    /// <summary>A link of the rail graph.</summary>
    internal sealed record OfLink(int Link) : Spot;

    /// <summary>An element of the wiring, numbered as in <see cref="Network.CaseCircuit.SeriesOfWire"/>.</summary>
    internal sealed record OfWire(int Wire) : Spot;

    /// <summary>Two nodes that must be apart.</summary>
    internal sealed record Between(int From, int To) : Spot;

    /// <summary>The four elements of a feeder: tap and wire of leg A, tap and wire of leg B.</summary>
    internal sealed record OfFeeder(int FirstWire) : Spot;

    /// <summary>A contact that leads elsewhere in another position: its links, with the node that each joins to the common one.</summary>
    internal sealed record OfContact(int Common, System.Collections.Immutable.ImmutableArray<(int Link, int Other)> Ways) : Spot;
}

/// <summary>A part that can fail and where it is.</summary>
/// <param name="Element">The part.</param>
/// <param name="Spot">Where.</param>
/// <param name="Count">How many such things it stands for: connectors of a run of bus and the like.</param>
/// <param name="IsPoor">Of a joiner: whether the rail's alloy makes it more likely to fail.</param>
internal sealed record Part(FaultElement Element, Spot Spot, int Count = 1, bool IsPoor = false);
