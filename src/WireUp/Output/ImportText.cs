using System.Text.Json.Nodes;
using Spectre.Console;
using WireUp.Layouts;
using WireUp.Layouts.Tracing;
using WireUp.Layouts.Tracing.Svg;

namespace WireUp.Output;

/// <summary>What <c>import</c> says of the layout that it traced.</summary>
internal static class ImportText
{
    /// <summary>In words.</summary>
    public static void Write(Terminal terminal, SvgReading read, TracedLayout traced)
    {
        foreach (string note in read.Notes.Concat(traced.Notes))
        {
            terminal.Note($"note: {note}");
        }

        terminal.Write($"{Words.Count(read.Lines.Length, "line", "lines")}: {string.Join(", ", Counts(traced.Layout).Where(count => count.Count > 0).Select(count => Words.Count(count.Count, count.One, count.Many)))}; "
            + $"{Words.Number(Metres(traced.Layout), "m")} of plain track\n");
        if (traced.Questions.IsEmpty)
        {
            return;
        }

        Table table = Tables.Ruled("question", "at", "taken", "or");
        foreach (TakenAnswer question in traced.Questions)
        {
            table.AddRow(
                Words.Plain(question.Question.Id),
                Words.Plain(TracedText.Point(question.Question.At)),
                Words.Plain(question.Taken.Word + (question.WasGiven ? " (as you said)" : "")),
                Words.Plain(string.Join("; ", question.Question.Answers.Where(answer => answer != question.Taken).Select(answer => $"{answer.Word}: {answer.Meaning}"))));
        }

        terminal.Show(table);
        terminal.Note("to take another answer, import again with --answer QUESTION=ANSWER --replace");
    }

    /// <summary>As JSON.</summary>
    public static JsonObject Json(SvgReading read, TracedLayout traced, string file)
    {
        JsonObject pieces = [];
        foreach ((int count, _, string many) in Counts(traced.Layout))
        {
            pieces[many.Replace(' ', '-')] = count;
        }

        return new()
        {
            ["file"] = file,
            ["lines"] = read.Lines.Length,
            ["unit-metres"] = read.UnitMetres,
            ["pieces"] = pieces,
            ["track-metres"] = Math.Round(Metres(traced.Layout), 5),
            ["questions"] = ResultJson.Array(traced.Questions, question => new JsonObject
            {
                ["id"] = question.Question.Id,
                ["message"] = question.Question.Text,
                ["at-metres"] = new JsonArray(Math.Round(question.Question.At.X, 5), Math.Round(question.Question.At.Y, 5)),
                ["taken"] = question.Taken.Word,
                ["given"] = question.WasGiven,
                ["answers"] = ResultJson.Array(question.Question.Answers, answer => new JsonObject { ["word"] = answer.Word, ["message"] = answer.Meaning }),
            }),
            ["notes"] = ResultJson.Array(read.Notes.Concat(traced.Notes), note => JsonValue.Create(note)),
        };
    }

    private static (int Count, string One, string Many)[] Counts(Layouts.Layout layout) =>
    [
        (layout.Track.OfType<Piece.Section>().Count(), "section", "sections"),
        (layout.Track.OfType<Piece.Turnout>().Count(), "turnout", "turnouts"),
        (layout.Track.OfType<Piece.MultiTurnout>().Count(), "three-way turnout", "three-way turnouts"),
        (layout.Track.OfType<Piece.Crossing>().Count(), "crossing", "crossings"),
        (layout.Track.OfType<Piece.Slip>().Count(), "double slip", "double slips"),
    ];

    private static double Metres(Layouts.Layout layout) => layout.Track.OfType<Piece.Section>().Sum(section => section.Length.Meters);
}
