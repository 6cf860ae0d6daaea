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

    /// <summary>
    /// First fit, longest piece first: simple, and never more than about a quarter more coils than the best packing
    /// (11/9 of it plus a part of one. Source: D. S. Johnson, Near-optimal bin packing algorithms, MIT thesis, 1973; bound quoted from memory).
    /// </summary>
    internal static CutGroup Of(Wire wire, string colour, ImmutableArray<ScheduledWire> pieces, Length coil)
    {
        List<(double Left, ImmutableArray<ScheduledWire>.Builder Pieces)> coils = [];
        foreach (ScheduledWire piece in pieces.OrderByDescending(piece => piece.CutLength.Meters))
        {
            double needed = piece.CutLength.Meters;
            int fit = coils.FindIndex(open => open.Left >= needed - 1e-9);
            if (fit < 0)
            {
                coils.Add((Math.Max(coil.Meters, needed), ImmutableArray.CreateBuilder<ScheduledWire>()));
                fit = coils.Count - 1;
            }

            coils[fit].Pieces.Add(piece);
            coils[fit] = (coils[fit].Left - needed, coils[fit].Pieces);
        }

        return new(wire, colour, [.. coils.Select(open => new CutCoil(open.Pieces.ToImmutable(), Length.FromMeters(Math.Max(0, open.Left))))]);
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
