using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>What every part of the reader needs: where problems go, and how bare numbers are meant.</summary>
internal sealed class ReadContext(ProblemList problems)
{
    public ProblemList Problems => problems;

    /// <summary>The unit of lengths written as bare numbers.</summary>
    public string BareUnit { get; set; } = "mm";

    /// <summary>Two-rail or three-rail: names the conductors of a track.</summary>
    public ControlSystem Control { get; set; } = ControlSystem.Command;

    public void Add(LayoutRule rule, TextPosition at, string text, string message, string expected) =>
        problems.Add(rule, at, text, message, expected);

    /// <summary>What to expect instead of a wrong word; not worked out where nobody will read it.</summary>
    public string Expect(string wrong, IEnumerable<string> known) => problems.IsFull ? "" : Spelling.Expect(wrong, known);

    /// <summary>Reports a value of the wrong shape.</summary>
    public void WrongShape(TextNode node, string what, string expected) =>
        Add(LayoutRules.WrongShape, node.Start, TextOf(node), $"{what} cannot be {node.Shape}", expected);

    /// <summary>Reads a quantity from text at a position, or reports why it is none.</summary>
    public T? Quantity<T>(string text, TextPosition at, QuantityKind<T> kind, Range range)
        where T : struct
    {
        string? bare = kind.Greater.Length > 0 ? BareUnit : null;
        QuantityFault fault = kind.TryRead(text, bare, out double value);
        if (fault != QuantityFault.None)
        {
            Add(fault == QuantityFault.NotNumber ? LayoutRules.NotQuantity : LayoutRules.WrongUnit, at, text,
                FaultMessage(fault, text, kind.Name), $"{kind.Name} such as {kind.Example}{(text.Contains(',', StringComparison.Ordinal) ? ", with a decimal point" : "")}");
            return null;
        }

        if (!range.Holds(value))
        {
            OutOfRange(text, at, range);
            return null;
        }

        return kind.Make(value);
    }

    /// <summary>Reads a plain number from text at a position, or reports why it is none.</summary>
    public double? Number(string text, TextPosition at, Range range)
    {
        if (QuantityText.Number(text) is not { } number)
        {
            Add(LayoutRules.NotQuantity, at, text, $"\"{ProblemList.Shorten(text)}\" is not a plain number", range.Words);
            return null;
        }

        if (!range.Holds(number))
        {
            OutOfRange(text, at, range);
            return null;
        }

        return number;
    }

    /// <summary>Reads a whole number from text at a position, or reports why it is none.</summary>
    public int? Whole(string text, TextPosition at, int least, int most)
    {
        Range range = Range.Count(least, most);
        double? number = Number(text, at, range);
        if (number is { } read && !double.IsInteger(read))
        {
            Add(LayoutRules.NotQuantity, at, text, $"\"{ProblemList.Shorten(text)}\" is not a whole number", range.Words);
            return null;
        }

        return (int?)number;
    }

    public Wire? Wire(string text, TextPosition at)
    {
        Wire? wire = WireText.TryRead(text, out QuantityFault fault, out bool outOfRange);
        if (outOfRange)
        {
            Add(LayoutRules.OutOfRange, at, text, $"\"{text}\" is out of range", "a wire from 4/0 AWG to 40 AWG, or from 0.05 mm2 to 120 mm2");
        }
        else if (wire is null)
        {
            Add(fault == QuantityFault.NotNumber ? LayoutRules.NotQuantity : LayoutRules.WrongUnit, at, text,
                FaultMessage(fault, text, "a wire"), $"a wire such as {WireText.Example}");
        }

        return wire;
    }

    private void OutOfRange(string text, TextPosition at, Range range) =>
        Add(LayoutRules.OutOfRange, at, text, $"\"{ProblemList.Shorten(text)}\" is out of range", range.Words);

    private static string FaultMessage(QuantityFault fault, string text, string kind) => fault switch
    {
        QuantityFault.NoUnit => $"\"{ProblemList.Shorten(text)}\" has no unit",
        QuantityFault.WrongUnit => $"the unit of \"{ProblemList.Shorten(text)}\" is not one of {kind}",
        _ => $"\"{ProblemList.Shorten(text)}\" is not {kind}",
    };

    private static string TextOf(TextNode node) => node is TextNode.Scalar scalar ? scalar.Value : "";
}
