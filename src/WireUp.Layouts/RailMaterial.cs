namespace WireUp.Layouts;

/// <summary>What a rail is made of: a code and an alloy from the reference table, or a measured resistance, which wins.</summary>
/// <param name="Code">Rail height in thousandths of an inch, for instance 83.</param>
/// <param name="Alloy">A name from the reference table, for instance <c>nickel-silver</c>.</param>
/// <param name="OhmsPerMetre">Measured resistance of one rail in ohm per metre, or null.</param>
public sealed record RailMaterial(int Code, string Alloy, double? OhmsPerMetre);
