using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads a file of readings against the layout that was measured.</summary>
internal sealed class ReadingsReader(ReadContext context, Layout layout, MapReader root)
{
    private const string DateExpected = "a day such as 2026-03-01";

    public static ReadingsReading Read(Layout layout, string text, string fileName)
    {
        ProblemList problems = new(fileName);
        TextNode? tree = TextTreeBuilder.Build(text.StartsWith(LayoutReader.ByteOrderMark) ? text[1..] : text, problems);
        if (tree is null)
        {
            if (!problems.HasErrors)
            {
                problems.Add(LayoutRules.WrongShape, new(1, 1, 0), "", "the file is empty", "readings, beginning with \"readings:\"");
            }

            return new(null, problems.InOrder());
        }

        ReadContext context = new(problems) { Control = layout.Control };
        ReadingSet set = new ReadingsReader(context, layout, new MapReader(context, tree, ReadingKeys.Root, tree.Start)).Read();
        return new(problems.HasErrors ? null : set, problems.InOrder());
    }

    private ReadingSet Read()
    {
        CheckVersion();
        ReadingReader readings = new(context, layout, root);
        return new ReadingSet
        {
            LayoutFile = root.Scalar(root.Find("layout"), "the name of the layout file")?.Value,
            Date = ReadDate(),
            Meter = ReadMeter(root.Find("meter")),
            Tools = ReadTools(),
            LoadBox = root.Quantity("load-box", QuantityKinds.Amps, Range.Rating) ?? ReadingSet.None.LoadBox,
            Readings = ReadList(readings),
        };
    }

    private void CheckVersion()
    {
        if (root.Scalar(root.Find("wireup"), "the version of the format, 1") is { } version && version.Value != "1")
        {
            context.Add(LayoutRules.WrongVersion, version.At(0), version.Value,
                $"\"{ProblemList.Shorten(version.Value)}\" is not a version of the format that this program reads", "1");
        }
    }

    private DateOnly? ReadDate()
    {
        if (root.Scalar(root.Find("date"), DateExpected) is not { } text)
        {
            return null;
        }

        if (DateOnly.TryParseExact(text.Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day))
        {
            return day;
        }

        context.Add(LayoutRules.NotQuantity, text.At(0), text.Value, $"\"{ProblemList.Shorten(text.Value)}\" is not a day", DateExpected);
        return null;
    }

    private MeterAccuracy ReadMeter(TextEntry? entry)
    {
        MeterAccuracy usual = MeterAccuracy.Usual;
        if (entry is null)
        {
            return usual;
        }

        MapReader map = new(context, entry.Value, ReadingKeys.Meter, entry.Key.Start);
        Ratio Part(string key, Ratio otherwise) => map.Quantity(key, QuantityKinds.Percent, Range.Drop) ?? otherwise;
        return new(Part("volts", usual.Volts), Part("ohms", usual.Ohms), Part("amps", usual.Amps));
    }

    private ReadingTools ReadTools()
    {
        if (!root.Has("tools"))
        {
            return ReadingTools.Usual;
        }

        ReadingTools tools = ReadingTools.None;
        foreach (TextNode node in root.List("tools", "a list of tools, for instance [volts, ohms, load]"))
        {
            if (node is TextNode.Scalar { IsNull: false } word)
            {
                tools |= root.Word(word, Words.Tools) ?? ReadingTools.None;
            }
            else
            {
                context.WrongShape(node, "a tool", Spelling.List([.. Words.Tools.Select(tool => tool.Word)]));
            }
        }

        return tools;
    }

    private ImmutableArray<MeterReading> ReadList(ReadingReader readings)
    {
        ImmutableArray<TextNode> items = root.List("readings", "a list of readings");
        if (items.IsEmpty)
        {
            root.Require("readings", "a list of readings");
        }

        if (items.Length > ReadingsFile.MostReadings)
        {
            context.Add(LayoutRules.LimitPassed, items[ReadingsFile.MostReadings].Start, "", $"the file has {items.Length} readings",
                string.Create(CultureInfo.InvariantCulture, $"at most {ReadingsFile.MostReadings}"));
            return [];
        }

        return [.. items.Select(readings.Read).OfType<MeterReading>()];
    }
}
