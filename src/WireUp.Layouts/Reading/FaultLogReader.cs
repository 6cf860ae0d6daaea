using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads a fault log. Parts are not looked up: the log outlives changes of the layout.</summary>
internal sealed class FaultLogReader(ReadContext context)
{
    private const string DateExpected = "a day such as 2026-03-01";

    private static readonly KeySet RootKeys = new("the fault log", "wireup", "faults");

    private static readonly KeySet FaultKeys = new("a fault", "part", "kind", "state", "date", "cure", "readings");

    private static readonly ImmutableArray<(string Word, FaultElementKind Kind)> Kinds = [.. Enum.GetValues<FaultElementKind>().Select(kind => (kind.Word(), kind))];

    private static readonly ImmutableArray<(string Word, FaultState State)> States = [.. Enum.GetValues<FaultState>().Select(state => (state.Word(), state))];

    public static FaultLogReading Read(string text, string fileName)
    {
        ProblemList problems = new(fileName);
        TextNode? tree = TextTreeBuilder.Build(text.StartsWith(LayoutReader.ByteOrderMark) ? text[1..] : text, problems);
        ReadContext context = new(problems);
        FaultLog log = tree is null ? FaultLog.None : new FaultLogReader(context).Read(new MapReader(context, tree, RootKeys, tree.Start));
        return new(problems.HasErrors ? null : log, problems.InOrder());
    }

    private FaultLog Read(MapReader root) =>
        new([.. root.List("faults", "a list of faults").Select(Read).OfType<LoggedFault>()]);

    private LoggedFault? Read(TextNode node)
    {
        if (node is not TextNode.Mapping)
        {
            context.WrongShape(node, "a fault", "a mapping with the keys \"part\", \"kind\", \"date\" and \"cure\"");
            return null;
        }

        MapReader map = new(context, node, FaultKeys, node.Start);
        string? part = Text(map, "part", "the part, as diagnose names it");
        map.Require("kind", Spelling.List([.. Kinds.Select(kind => kind.Word)]));
        FaultElementKind? kind = map.Word("kind", Kinds);
        FaultState? state = map.Word("state", States);
        DateOnly? date = ReadDate(map);
        string? cure = Text(map, "cure", "what was done");
        ImmutableArray<string> readings =
            [.. map.List("readings", "a list of sentences").OfType<TextNode.Scalar>().Where(line => !line.IsNull).Select(line => line.Value)];
        return part is null || kind is null || date is null || cure is null ? null
            : new(part, kind.Value, date.Value, cure) { State = state, Readings = readings };
    }

    private static string? Text(MapReader map, string key, string expected) => map.Scalar(map.Require(key, expected), expected)?.Value;

    private DateOnly? ReadDate(MapReader map)
    {
        if (map.Scalar(map.Require("date", DateExpected), DateExpected) is not { } text)
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
}
