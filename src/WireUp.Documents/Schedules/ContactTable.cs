using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents;

/// <summary>What joins what in which position: every conductor of the trackwork that something moving gives its current, and every hand switch.</summary>
/// <param name="Contacts">Conductors of trackwork, in the order of the file.</param>
/// <param name="Settings">What switches and contacts do to feeders and gaps, hand switches first.</param>
public sealed record ContactTable(ImmutableArray<MovingContact> Contacts, ImmutableArray<SettingEffect> Settings)
{
    /// <summary>The table of a layout.</summary>
    public static ContactTable Of(Layout layout) => new(
        [.. layout.Track.SelectMany(piece => ContactReader.Of(piece, layout.Control))],
        [.. SettingEffects.Of(layout)]);
}

/// <summary>One conductor and what it is joined to as something moves.</summary>
/// <param name="Owner">The piece of trackwork.</param>
/// <param name="Conductor">The conductor: <c>frog</c>, <c>frog-west</c>, <c>through/right</c>.</param>
/// <param name="By">What joins it.</param>
/// <param name="MovedBy">What moves that.</param>
/// <param name="Throws">What it can be joined to; in positions of no throw it is joined to nothing.</param>
public sealed record MovingContact(PieceId Owner, string Conductor, ContactKind By, string MovedBy, ImmutableArray<ContactThrow> Throws)
{
    /// <summary>Whether wires lead to it: it is a contact, and not a blade.</summary>
    public bool IsWired => By is ContactKind.Contact or ContactKind.BladesAndContact or ContactKind.Changeover;

    /// <summary>The conductor with its piece: <c>S1/frog-west</c>, <c>T1.through/right</c>.</summary>
    public required string Name { get; init; }
}

/// <summary>One thing that a moving contact can join its conductor to.</summary>
/// <param name="Name">What stands at the terminal: the position where it is told by one, else a number.</param>
/// <param name="Positions">Positions in which it does.</param>
/// <param name="Joins">What it joins the conductor to: <c>S1.a1/left</c>.</param>
public sealed record ContactThrow(string Name, ImmutableArray<string> Positions, string Joins)
{
    /// <summary>The conductor of the piece that it joins to.</summary>
    internal PieceNode Node { get; init; }
}

/// <summary>What joins a conductor.</summary>
public enum ContactKind
{
    /// <summary>A blade against its stock rail.</summary>
    Blades,

    /// <summary>A blade, and a contact besides.</summary>
    BladesAndContact,

    /// <summary>A changeover contact.</summary>
    Contact,

    /// <summary>An electronic changeover.</summary>
    Changeover,

    /// <summary>The moving rails of a stub turnout.</summary>
    MovingRails,

    /// <summary>A ring in two halves under a turntable.</summary>
    SplitRing,
}

/// <summary>What one position of a hand switch or piece of trackwork does to wires and gaps.</summary>
/// <param name="When">The position.</param>
/// <param name="Effects">What it does, in words; empty where it connects nothing.</param>
public sealed record SettingEffect(Setting When, ImmutableArray<string> Effects);
