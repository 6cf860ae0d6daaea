using System.Collections.Immutable;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads how often parts of this railway fail, where that differs from what is usual.</summary>
internal sealed class FaultPriorReader(ReadContext context)
{
    private static readonly ImmutableArray<string> Kinds = [.. Enum.GetValues<FaultElementKind>().Select(kind => kind.Word())];

    public FaultPriors Read(TextEntry? entry)
    {
        if (entry is null)
        {
            return FaultPriors.Usual;
        }

        MapReader map = new(context, entry.Value, FormatKeys.FaultPriors, entry.Key.Start);
        return FaultPriors.Usual with { AgeYears = map.Number("age", Range.Years), Chances = ReadChances(map) };
    }

    private ImmutableDictionary<FaultElementKind, double> ReadChances(MapReader map)
    {
        ImmutableDictionary<FaultElementKind, double>.Builder chances = ImmutableDictionary.CreateBuilder<FaultElementKind, double>();
        foreach (TextEntry entry in map.Named("chances", "a mapping of percentages by kind of part, for instance { joiner: 2 % }"))
        {
            if (FaultWords.Kind(entry.Key.Value) is not { } kind)
            {
                context.Add(LayoutRules.UnknownWord, entry.Key.Start, entry.Key.Value, $"\"{ProblemList.Shorten(entry.Key.Value)}\" is not a kind of part",
                    context.Expect(entry.Key.Value, Kinds));
            }
            else if (map.Scalar(entry, QuantityKinds.Percent.Example) is { } text
                && context.Quantity(text.Value, text.At(0), QuantityKinds.Percent, Range.Chance) is { } chance)
            {
                chances[kind] = chance.Percent / 100;
            }
        }

        return chances.ToImmutable();
    }
}
