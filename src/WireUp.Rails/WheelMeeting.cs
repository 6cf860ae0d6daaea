using System.Collections.Immutable;

namespace WireUp.Rails;

/// <summary>Where a metal wheel joins two rails that no metal of the track joins.</summary>
public enum WheelPlace
{
    /// <summary>On a gap or insulated joint, as it rolls across.</summary>
    Gap,

    /// <summary>On the air gap between a moving bridge and a road.</summary>
    PitEdge,

    /// <summary>At an open blade, which its back touches while it runs along the stock rail.</summary>
    OpenBlade,
}

/// <summary>Two wires that must not meet and do under a wheel.</summary>
/// <param name="Place">What the wheel rolls over.</param>
/// <param name="Near">The rail on the one side.</param>
/// <param name="Far">The rail on the other side.</param>
/// <param name="Meeting">
/// The two wires, the way between them over the wheel, and the positions: the fewest in which a train can be there and the wires meet.
/// </param>
public sealed record WheelMeeting(WheelPlace Place, RailPoint Near, RailPoint Far, RailMeeting Meeting);

/// <summary>Two wires that meet when a vehicle, or wheels one behind the other, bridges two gaps with a dead rail between them.</summary>
/// <param name="From">The rail before the first gap.</param>
/// <param name="To">The rail beyond the last gap.</param>
/// <param name="Metres">How far it is from the first gap to the last one.</param>
/// <param name="Meeting">As under one wheel.</param>
public sealed record LongBridge(RailPoint From, RailPoint To, double Metres, RailMeeting Meeting);

/// <summary>A length of rail without any feed between two rails that have one.</summary>
/// <param name="From">The fed rail before it.</param>
/// <param name="To">The fed rail beyond it.</param>
/// <param name="Metres">How long it is, along the way that trains drive.</param>
/// <param name="Points">The rail points passed that have no feed.</param>
public sealed record DeadLength(RailPoint From, RailPoint To, double Metres, ImmutableArray<RailPoint> Points);
