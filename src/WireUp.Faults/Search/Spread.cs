using WireUp.Circuits.Network;
using WireUp.Faults.Network;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Search;

/// <summary>By how much a reading varies because healthy parts are not all alike.</summary>
/// <remarks>
/// First order: the reading changes by gain·dx for dx ohm more in an element, and an element of r ohm varies by r times the spread of its
/// kind. The squares are summed over every element of the circuit, load and meter being there. What a fault adds to that is
/// taken as a part of the change that it makes (row fault-drop-spread).
/// </remarks>
internal static class Spread
{
    private static readonly double Joints = Constants.Get("joint-spread").Value, Contacts = Constants.Get("contact-spread").Value;
    private static readonly double Wires = Constants.Get("wire-spread").Value, Rails = Constants.Get("rail-spread").Value;

    internal static double Of(Probe probe)
    {
        CaseCircuit circuit = probe.Circuit;
        double sum = 0;
        for (int i = 0; i < circuit.Circuit.Elements.Length; i++)
        {
            CircuitElement element = circuit.Circuit.Elements[i];
            if (element.Ohms > 0 && element.From != element.To && element.Ohms < CaseCircuit.InsulationOhms)
            {
                Branch branch = new(true, element.From, element.To, element.Ohms, i);
                double change = probe.Of(branch, 0, circuit.Drive(branch)).Gain * element.Ohms * Of(element.Kind);
                sum += change * change;
            }
        }

        return Math.Sqrt(sum);
    }

    /// <summary>Spread of a kind of element.</summary>
    internal static double Of(ElementKind kind) => kind switch
    {
        ElementKind.Rail => Rails,
        ElementKind.Bus => Wires,
        ElementKind.Trackwork => Contacts,
        _ => Joints,
    };
}
