using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads a breaker's trip curve: a list of currents, each with the time it takes the breaker to open at it.</summary>
internal sealed class TripCurveReader(ReadContext context)
{
    private const string Example = "a current and a time, for instance 6 A 0.5 s";

    /// <summary>The points; none where the key is not written or a point cannot be read.</summary>
    public ImmutableArray<TripPoint> Read(MapReader district)
    {
        ImmutableArray<TripPoint>.Builder points = ImmutableArray.CreateBuilder<TripPoint>();
        bool isWhole = true;
        foreach (TextNode node in district.List("curve", "a list of currents with times, for instance [3.3 A 10 s, 15 A 20 ms]"))
        {
            if (ReadPoint(node) is not { } point)
            {
                isWhole = false;
            }
            else if (points.Count > 0 && !(point.Current > points[^1].Current && point.Time <= points[^1].Time))
            {
                context.Add(LayoutRules.Contradiction, node.Start, ((TextNode.Scalar)node).Value,
                    "a breaker opens no later at a larger current than at a smaller one", "currents that rise and times that do not");
                isWhole = false;
            }
            else
            {
                points.Add(point);
            }
        }

        return isWhole ? points.ToImmutable() : [];
    }

    private TripPoint? ReadPoint(TextNode node)
    {
        if (node is not TextNode.Scalar { IsNull: false } scalar || QuantityText.Split(scalar.Value) is not [var amps, var seconds])
        {
            context.WrongShape(node, "a point of the curve", Example);
            return null;
        }

        ElectricCurrent? current = Part(scalar, amps, QuantityKinds.Amps, Range.Rating);
        Duration? time = Part(scalar, seconds, QuantityKinds.Seconds, Range.Seconds);
        return current is null || time is null ? null : new TripPoint(current.Value, time.Value);
    }

    private T? Part<T>(TextNode.Scalar scalar, NumberWithUnit part, QuantityKind<T> kind, Range range)
        where T : struct => context.Quantity($"{Numbers.Exact(part.Number)} {part.Unit}", scalar.At(0), kind, range);
}
