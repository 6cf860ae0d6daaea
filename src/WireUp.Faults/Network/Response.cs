namespace WireUp.Faults.Network;

/// <summary>
/// What a reading becomes when one branch changes: healthy + gain/(q + own), q being the resistance put between two nodes, ohm, or the
/// conductance of what is put in series with an element, siemens.
/// </summary>
/// <param name="Gain">Product of what the branch is offered and of what it does to the reading.</param>
/// <param name="Own">Resistance or conductance that the branch sees.</param>
internal readonly record struct Response(double Gain, double Own)
{
    /// <summary>A part that is not there in this case changes nothing.</summary>
    internal static Response None => new(0, 1);

    /// <summary>By how much the reading changes.</summary>
    internal double Change(double q) => Gain / (q + Own);

    /// <summary>q for which the reading changes by that much; not above 0 where none does.</summary>
    internal double For(double change) => (Gain / change) - Own;
}
