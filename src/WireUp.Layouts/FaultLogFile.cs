using WireUp.Layouts.Reading;
using WireUp.Layouts.Text;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts;

/// <summary>The fault log beside a layout, <c>NAME.faults.yaml</c>, as text.</summary>
public static class FaultLogFile
{
    /// <summary>What the name of the log beside a layout ends in.</summary>
    public const string Ending = ".faults.yaml";

    private const string Header = "# Faults found and cured, the newest last. `wireup diagnose` weighs later faults by it (docs/faults.md).\n";

    /// <summary>Reads the text of a log; problems have line and column, and no text makes this throw.</summary>
    /// <param name="text">The whole text.</param>
    /// <param name="fileName">The name of the file, for messages only.</param>
    public static FaultLogReading Read(string text, string fileName) => FaultLogReader.Read(text, fileName);

    /// <summary>The text with one more fault at its end; comments and all else stay byte for byte.</summary>
    /// <param name="text">The text, without problems; null or empty for a new log.</param>
    /// <param name="fault">The fault.</param>
    /// <exception cref="ArgumentException">The text has problems.</exception>
    public static string WithAdded(string? text, LoggedFault fault)
    {
        Snippet.List added = new([Of(fault).Flow]);
        if (string.IsNullOrWhiteSpace(text))
        {
            return $"{Header}faults:\n  - {added.Items[0]}\n";
        }

        string bom = text.StartsWith(LayoutReader.ByteOrderMark) ? text[..1] : "";
        string body = text[bom.Length..];
        TextNode root = TextTreeBuilder.Build(body, new ProblemList("")) ?? throw new ArgumentException("the log cannot be read", nameof(text));
        string changed = bom + TextEdit.Apply(body, [new TextInsertion(body).Add(root, ["faults"], added)]);
        FaultLogReading before = Read(text, ""), after = Read(changed, "");
        return before.Log is { } old && after.Log?.Faults.Length == old.Faults.Length + 1
            ? changed
            : throw new ArgumentException($"the fault does not fit into the log: {(after.Problems.IsEmpty ? "it has problems" : after.Problems[0])}", nameof(text));
    }

    private static Snippet.Map Of(LoggedFault fault) => Snippet.Of(
        ("part", Quoted(fault.Part)),
        ("kind", fault.Kind.Word()),
        ("state", fault.State?.Word()),
        ("date", fault.Date.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)),
        ("cure", Quoted(fault.Cure)),
        ("readings", fault.Readings.IsEmpty ? null : $"[{string.Join(", ", fault.Readings.Select(Quoted))}]"));

    private static string Quoted(string text) => ScalarText.Write(text);
}
