using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Text;

namespace WireUp.Layouts;

/// <summary>A place somebody typed, with the current taken there, or the problems of what was typed.</summary>
/// <param name="Place">The place, or null when it cannot be read.</param>
/// <param name="Current">The current, or null when none was typed or it cannot be read.</param>
/// <param name="Problems">What is wrong; the line is always 1.</param>
public sealed record TypedPlace(TrackPlace? Place, ElectricCurrent? Current, ImmutableArray<LayoutProblem> Problems)
{
    /// <summary>Reads <c>loop@1 m</c> or <c>loop@1 m=0.5 A</c> as they are read in the layout's own file; bare lengths are in millimetres.</summary>
    /// <param name="layout">The layout whose sections may be named.</param>
    /// <param name="text">What was typed.</param>
    /// <param name="source">Where it was typed, for messages: <c>--load</c>.</param>
    public static TypedPlace Read(Layout layout, string text, string source)
    {
        ProblemList problems = new(source);
        ReadContext context = new(problems) { Control = layout.Control };
        PieceTable pieces = new();
        foreach (Piece piece in layout.Track)
        {
            pieces.Add(piece.Id.Name, piece);
        }

        int sign = text.LastIndexOf('=');
        string place = sign < 0 ? text : text[..sign];
        TrackPlace? at = new PlaceReader(context, pieces).Read(place.Trim(), new TextPosition(1, 1, 0));
        ElectricCurrent? current = sign < 0
            ? null
            : context.Quantity(text[(sign + 1)..].Trim(), new TextPosition(1, sign + 2, sign + 1), QuantityKinds.Amps, Reading.Range.Amps);
        return new(at, current, problems.InOrder());
    }
}
