using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads points of the plan: <c>[900, 400]</c>, in the unit of bare numbers or with units.</summary>
internal sealed class PlanReader(ReadContext context)
{
    private const string Expected = "a point of the plan, for instance [900, 400]";

    public PlanPoint? Point(TextNode node)
    {
        if (node is not TextNode.Sequence { Items: [TextNode.Scalar x, TextNode.Scalar y] })
        {
            context.WrongShape(node, "a point", Expected);
            return null;
        }

        return Metres(x) is { } right && Metres(y) is { } up ? new PlanPoint(right, up) : null;
    }

    private double? Metres(TextNode.Scalar value) => context.Quantity(value.Value, value.At(0), QuantityKinds.Length, Range.Plan) is { } length
        ? length.Meters
        : null;
}
