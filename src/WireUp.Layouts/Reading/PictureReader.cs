using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads <c>picture:</c>, what the plan is drawn over.</summary>
internal sealed class PictureReader(ReadContext context)
{
    public PlanPicture? Read(TextEntry? entry)
    {
        if (entry is null || entry.Value is TextNode.Scalar { IsNull: true })
        {
            return null;
        }

        MapReader map = new(context, entry.Value, FormatKeys.Picture, entry.Key.Start);
        string? file = ReadFile(map.Scalar(map.Require("file", PlanPicture.Expected), PlanPicture.Expected));
        Length? width = map.RequireQuantity("width", QuantityKinds.Length, Range.TrackLength);
        PlanPoint at = map.Find("at") is { } place ? new PlanReader(context).Point(place.Value) ?? default : default;
        Angle turn = map.Quantity("turn", QuantityKinds.Degrees, Range.Turn) ?? Angle.Zero;
        return file is null || width is null ? null : new PlanPicture(file, width.Value) { At = at, Turn = turn };
    }

    private string? ReadFile(TextNode.Scalar? name)
    {
        if (name is null || PlanPicture.IsFileName(name.Value))
        {
            return name?.Value;
        }

        context.Add(LayoutRules.BadName, name.At(0), name.Value, $"\"{ProblemList.Shorten(name.Value)}\" is not the name of a picture's file", PlanPicture.Expected);
        return null;
    }
}
