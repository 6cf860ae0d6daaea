using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads places along sections: <c>loop@2.7 m</c> from end a, <c>loop@-100</c> from end b.</summary>
internal sealed class PlaceReader(ReadContext context, PieceTable pieces)
{
    public const string Example = "a place such as loop@2.7 m, or loop@-100 mm from end b";

    public TrackPlace? Read(string text, TextPosition at)
    {
        int sign = text.IndexOf('@', StringComparison.Ordinal);
        if (sign < 0)
        {
            context.Add(LayoutRules.NotQuantity, at, text, $"\"{ProblemList.Shorten(text)}\" is not a place along a section", Example);
            return null;
        }

        string name = text[..sign].TrimEnd();
        if (!pieces.Find(name, at, context, out Piece? piece) || piece is null)
        {
            return null;
        }

        if (piece is not Piece.Section section)
        {
            context.Add(LayoutRules.PlaceOutside, at, name, $"\"{name}\" is not a section, so it has no places along it", "the name of a section");
            return null;
        }

        string distance = text[(sign + 1)..];
        int blanks = distance.Length - distance.TrimStart().Length;
        return Along(section, distance.Trim(), at.Plus(sign + 1 + blanks));
    }

    private TrackPlace? Along(Piece.Section section, string text, TextPosition at)
    {
        if (context.Quantity(text, at, QuantityKinds.Length, Range.Plan) is not { } distance)
        {
            return null;
        }

        double length = section.Length.Meters;
        double metres = text.StartsWith('-') ? Math.Round(length + distance.Meters, 12) : distance.Meters;
        if (metres >= 0 && metres <= length)
        {
            return new TrackPlace(section.Id, metres);
        }

        context.Add(LayoutRules.PlaceOutside, at, text, $"\"{text}\" is beyond the ends of section \"{section.Id}\"",
            $"a distance from 0 to {LengthText.Write(section.Length)}");
        return null;
    }
}
