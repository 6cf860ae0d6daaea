namespace WireUp.Circuits.Network.WhatIfs;

/// <summary>One change of a circuit.</summary>
/// <param name="Element">Index of the element that changes, or −1 for one that is added.</param>
/// <param name="First">One end of an element that is added, a node.</param>
/// <param name="Second">Its other end.</param>
/// <param name="Ohms">New resistance, 0 to ∞.</param>
internal readonly record struct ElementChange(int Element, int First, int Second, double Ohms)
{
    /// <summary>The element conducts no longer.</summary>
    internal static ElementChange Open(int element) => new(element, -1, -1, double.PositiveInfinity);

    /// <summary>The element gets another resistance: a joint that has gone bad.</summary>
    internal static ElementChange Set(int element, double ohms) => new(element, -1, -1, ohms);

    /// <summary>Two nodes are joined: a coin, a load, a wire that should not be there.</summary>
    internal static ElementChange Add(int first, int second, double ohms) => new(-1, first, second, ohms);
}

/// <summary>A place whose volts are wanted.</summary>
/// <param name="First">Node of the first conductor.</param>
/// <param name="Second">Node of the second.</param>
/// <param name="Amps">What a load draws there from the first to the second, in the case that is changed.</param>
internal readonly record struct AskedPlace(int First, int Second, double Amps = 0);
