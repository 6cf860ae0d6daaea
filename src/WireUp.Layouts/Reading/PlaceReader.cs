using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>
/// Reads places along sections, <c>loop@2.7 m</c> from end a, <c>loop@-100</c> from end b, and along the bridges of turntables and
/// transfer tables, <c>TT@150</c> from the head.
/// </summary>
internal sealed class PlaceReader(ReadContext context, PieceTable pieces)
{
    public const string Example = "a place such as loop@2.7 m, or loop@-100 mm from end b";

    public TrackPlace? Read(string text, TextPosition at)
    {
        int sign = text.IndexOf('@', StringComparison.Ordinal);
        if (sign < 0)
        {
            context.Add(LayoutRules.NotQuantity, at, text, $"\"{ProblemList.Shorten(text)}\" is not a place along the track", Example);
            return null;
        }

        string name = text[..sign].TrimEnd();
        int dot = name.IndexOf('.', StringComparison.Ordinal);
        if (dot > 0 && pieces.TryGet(name[..dot], out _))
        {
            context.Add(LayoutRules.PlaceOutside, at, name, $"\"{ProblemList.Shorten(name)}\" names an end, but a place is counted along a whole piece",
                $"{name[..dot]}{text[sign..]}, or the end alone where only an end is meant");
            return null;
        }

        if (!pieces.Find(name, at, context, out Piece? piece) || piece is null)
        {
            return null;
        }

        if (piece.PlacesMetres is not { } length)
        {
            context.Add(LayoutRules.PlaceOutside, at, name, $"\"{name}\" is neither a section nor a moving bridge, so it has no places along it",
                "the name of a section, turntable or transfer table");
            return null;
        }

        string distance = text[(sign + 1)..];
        int blanks = distance.Length - distance.TrimStart().Length;
        return Along((piece, length), distance.Trim(), at.Plus(sign + 1 + blanks));
    }

    private TrackPlace? Along((Piece Piece, double Metres) track, string text, TextPosition at)
    {
        if (context.Quantity(text, at, QuantityKinds.Length, Range.Plan) is not { } distance)
        {
            return null;
        }

        double length = track.Metres;
        double metres = text.StartsWith('-') ? Math.Round(length + distance.Meters, 12) : distance.Meters;
        if (metres >= 0 && metres <= length)
        {
            return new TrackPlace(track.Piece.Id, metres);
        }

        context.Add(LayoutRules.PlaceOutside, at, text, $"\"{text}\" is beyond the ends of {(track.Piece is Piece.Section ? "section" : "the bridge of")} \"{track.Piece.Id}\"",
            $"a distance from 0 to {LengthText.Write(length)}");
        return null;
    }
}
