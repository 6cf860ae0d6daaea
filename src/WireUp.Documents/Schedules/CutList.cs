using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Documents;

/// <summary>What to cut from which coil: one group for each size and colour of wire.</summary>
/// <param name="Groups">By size, thickest first, then by colour letters.</param>
public sealed record CutList(ImmutableArray<CutGroup> Groups)
{
    /// <summary>The cut list of the wires still to be laid.</summary>
    /// <param name="schedule">The schedule.</param>
    /// <param name="coil">Length of a new coil; common shop lengths are 10, 25 and 100 m.</param>
    public static CutList Of(Schedule schedule, Length coil) => new([
        .. schedule.ToDo
            .GroupBy(wire => (wire.Wire, wire.Colour))
            .OrderByDescending(group => Conductors.AreaSquareMillimetres(group.Key.Wire))
            .ThenBy(group => group.Key.Colour, StringComparer.Ordinal)
            .Select(group => CutGroup.Of(group.Key.Wire, group.Key.Colour, [.. group], coil)),
    ]);
}

/// <summary>The pieces of one size and colour and the coils they come from.</summary>
/// <param name="Wire">The size.</param>
/// <param name="Colour">Colour letters by IEC 60757.</param>
/// <param name="Coils">The coils, each with its pieces, longest first.</param>
public sealed record CutGroup(Wire Wire, string Colour, ImmutableArray<CutCoil> Coils)
{
    /// <summary>Every piece, longest first.</summary>
    public IEnumerable<ScheduledWire> Pieces => Coils.SelectMany(coil => coil.Pieces).OrderByDescending(piece => piece.CutLength);

    /// <summary>All pieces together.</summary>
    public Length Total => Length.FromMeters(Pieces.Sum(piece => piece.CutLength.Meters));

    /// <summary>No packing takes fewer coils; where <see cref="Coils"/> are more, whether fewer would do is not known.</summary>
    public int AtLeast { get; init; }

    /// <summary>What is left on all coils together.</summary>
    public Length Left => Length.FromMeters(Coils.Sum(coil => coil.Left.Meters));

    /// <summary>The pieces packed as <see cref="CoilPacking"/> does.</summary>
    internal static CutGroup Of(Wire wire, string colour, ImmutableArray<ScheduledWire> pieces, Length coil)
    {
        // Tenths of a millimetre, a coil rounded down and pieces up: finer than anybody cuts.
        CoilPacking packing = CoilPacking.Of(
            [.. pieces.Select(piece => (long)Math.Ceiling((piece.CutLength.Millimeters * 10) - 1e-6))], (long)Math.Floor((coil.Millimeters * 10) + 1e-6));
        return new(wire, colour, [.. packing.Coils.Select(cut => OnCoil([.. cut.Select(i => pieces[i])], coil))]) { AtLeast = packing.AtLeast };
    }

    private static CutCoil OnCoil(ImmutableArray<ScheduledWire> pieces, Length coil)
    {
        double used = pieces.Sum(piece => piece.CutLength.Meters);
        return new(pieces, Length.FromMeters(Math.Max(0, coil.Meters - used)));
    }
}

/// <summary>One coil and what is cut from it.</summary>
/// <param name="Pieces">The pieces, longest first. One that is longer than a coil has a length of wire to itself.</param>
/// <param name="Left">What remains on the coil.</param>
public sealed record CutCoil(ImmutableArray<ScheduledWire> Pieces, Length Left)
{
    /// <summary>What is cut from it.</summary>
    public Length Used => Length.FromMeters(Pieces.Sum(piece => piece.CutLength.Meters));
}
