namespace WireUp.Faults.Network;

/// <summary>
/// Where a fault changes a circuit: a resistance put in series with an element, or one put between two nodes that had none.
/// </summary>
/// <param name="IsSeries">In series with an element; else between two nodes.</param>
/// <param name="From">The element's first node, or one of the two nodes.</param>
/// <param name="To">The other.</param>
/// <param name="Ohms">The element's own resistance; 0 of nodes that are joined.</param>
/// <param name="Element">The element, or −1.</param>
internal readonly record struct Branch(bool IsSeries, int From, int To, double Ohms, int Element)
{
    internal static Branch Joining(int from, int to) => new(false, from, to, 0, -1);
}

/// <summary>A branch with what the circuit of its case offers it.</summary>
/// <param name="Branch">The branch.</param>
/// <param name="Own">What it sees (<see cref="CaseCircuit.Own"/>).</param>
/// <param name="Drive">What it is offered (<see cref="CaseCircuit.Drive"/>).</param>
internal readonly record struct Offered(Branch Branch, double Own, double Drive);
