using System.Collections.Immutable;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads hand switches and their positions: <c>B1: [cab-a, cab-b, off]</c>.</summary>
internal sealed class SwitchReader(ReadContext context, PieceTable pieces)
{
    private const string Expected = "a list of its positions, for instance [cab-a, cab-b, off]";

    /// <summary>Every switch of the file with its positions; none where they could not be read.</summary>
    public Dictionary<string, ImmutableArray<string>> Positions { get; } = new(StringComparer.Ordinal);

    public ImmutableArray<Switch> Read(MapReader wiring)
    {
        ImmutableArray<Switch>.Builder switches = ImmutableArray.CreateBuilder<Switch>();
        foreach (TextEntry entry in wiring.Named("switches", "a mapping of lists of positions by the name of the switch"))
        {
            if (!Names.Check(entry.Key, context))
            {
                continue;
            }

            string name = entry.Key.Value;
            if (pieces.Names.Contains(name))
            {
                context.Add(LayoutRules.NameTwice, entry.Key.Start, name, $"\"{name}\" is a piece of track already, and cannot be a switch too",
                    "a name that no piece has");
            }

            Positions[name] = ReadPositions(entry) ?? [];
            switches.Add(new Switch(new PieceId(name), Positions[name]));
        }

        return switches.ToImmutable();
    }

    private ImmutableArray<string>? ReadPositions(TextEntry entry)
    {
        if (entry.Value is not TextNode.Sequence list)
        {
            TextPosition at = entry.Value is TextNode.Scalar { IsNull: true } ? entry.Key.Start : entry.Value.Start;
            context.Add(LayoutRules.WrongShape, at, entry.Key.Value, $"switch \"{entry.Key.Value}\" cannot be {entry.Value.Shape}", Expected);
            return null;
        }

        if (list.Items.Length < 2)
        {
            context.Add(LayoutRules.WrongShape, list.Start, "", $"switch \"{entry.Key.Value}\" needs two positions or more", Expected);
            return null;
        }

        ImmutableArray<string>.Builder positions = ImmutableArray.CreateBuilder<string>();
        bool isWhole = true;
        foreach (TextNode item in list.Items)
        {
            isWhole &= ReadPosition(item, positions);
        }

        return isWhole ? positions.ToImmutable() : null;
    }

    private bool ReadPosition(TextNode item, ImmutableArray<string>.Builder positions)
    {
        if (item is not TextNode.Scalar { IsNull: false } name)
        {
            context.WrongShape(item, "a position", "a name such as on, off or cab-a");
            return false;
        }

        if (!Names.Check(name, context))
        {
            return false;
        }

        if (positions.Contains(name.Value))
        {
            context.Add(LayoutRules.NameTwice, name.At(0), name.Value, $"the switch has the position \"{name.Value}\" twice", "a name for each position");
            return false;
        }

        positions.Add(name.Value);
        return true;
    }
}
