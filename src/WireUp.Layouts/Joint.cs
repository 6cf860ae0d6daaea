using UnitsNet;

namespace WireUp.Layouts;

/// <summary>Where two ends meet.</summary>
/// <param name="First">One end; the end the person wrote first.</param>
/// <param name="Second">The other end.</param>
public sealed record Joint(TrackEnd First, TrackEnd Second)
{
    /// <summary>How the rails are held together.</summary>
    public JointKind Kind { get; init; } = JointKind.Joiner;

    /// <summary>Rails that an insulated joiner keeps apart, seen looking out of <see cref="First"/>. Saw cuts are <see cref="Gap"/>s.</summary>
    public RailSet Insulated { get; init; } = RailSet.None;

    /// <summary>Resistance of each conducting rail of this joint as measured, or null for the layout's default of its kind.</summary>
    public ElectricResistance? Resistance { get; init; }
}

/// <summary>How two rails are held together.</summary>
public enum JointKind
{
    /// <summary>A slide-on rail joiner.</summary>
    Joiner,

    /// <summary>Soldered.</summary>
    Soldered,
}

/// <summary>Some of the conductors of a track.</summary>
[Flags]
public enum RailSet
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>The left rail, or the centre conductor of three-rail track.</summary>
    Left = 1,

    /// <summary>The right rail, or the running rails of three-rail track.</summary>
    Right = 2,

    /// <summary>Both.</summary>
    Both = 3,
}

/// <summary>Questions about a <see cref="RailSet"/>.</summary>
public static class RailSetExtensions
{
    /// <summary>Whether the set holds that conductor.</summary>
    public static bool Holds(this RailSet set, RailSide side) =>
        (set & (side is RailSide.Left or RailSide.Centre ? RailSet.Left : RailSet.Right)) != 0;

    /// <summary>
    /// The same rails seen from the other end of a joint: left and right change places; on three-rail track nothing does.
    /// </summary>
    public static RailSet Across(this RailSet set, ControlSystem control) => control == ControlSystem.ThreeRail
        ? set
        : ((set & RailSet.Left) != 0 ? RailSet.Right : RailSet.None) | ((set & RailSet.Right) != 0 ? RailSet.Left : RailSet.None);
}

/// <summary>A cut or insulated joint that somebody made on purpose.</summary>
/// <param name="At">Where.</param>
/// <param name="Rails">Which rails: in a section seen from a towards b, in a joint seen looking out of the named end.</param>
public sealed record Gap(GapPlace At, RailSet Rails)
{
    /// <summary>The switch or turnout position in which a contact bridges the gap, or null for a plain gap.</summary>
    public Setting? BridgedWhen { get; init; }
}

/// <summary>Where a gap is.</summary>
public abstract record GapPlace
{
    private GapPlace()
    {
    }

    /// <summary>Cut within a section.</summary>
    public sealed record InSection(TrackPlace Place) : GapPlace
    {
        /// <summary>As written in the layout file.</summary>
        public override string ToString() => Place.ToString();
    }

    /// <summary>In the joint of a named end.</summary>
    public sealed record InJoint(TrackEnd End) : GapPlace
    {
        /// <summary>As written in the layout file.</summary>
        public override string ToString() => End.ToString();
    }
}
