using System.Collections.Immutable;
using WireUp.Documents.Geometry.Automatic;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry;

/// <summary>
/// The plan of a layout without paths. Every part that hangs together is put on paper so that tracks cross as seldom as can be
/// found, drawn on squared paper, then let go as elastic strips; see the classes for each step.
/// </summary>
internal static class AutomaticPlan
{
    /// <summary>The plan.</summary>
    public static PlanDrawing Draw(Layout layout, CancellationToken cancellation)
    {
        var lengths = new DrawnLengths(layout);
        PartLines sheet = SidePacking.Of(TrackNetwork.Of(layout).Parts().Select(part => PartDrawing.Of(part, lengths, cancellation)));
        double unit = lengths.UnitMetres;
        PartLines inMetres = sheet.Moved(point => new(point.X * unit, point.Y * unit));
        ILookup<PieceId, PieceLine> linesOf = inMetres.Lines.ToLookup(line => line.Piece);
        ImmutableArray<PieceLine> inOrder = [.. layout.Track.SelectMany(piece => linesOf[piece.Id])];
        return new(inOrder, true, unit, inMetres.Bridges);
    }
}
