using System.Collections.Immutable;
using Spectre.Console;
using WireUp.Faults;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using Layout = WireUp.Layouts.Layout;

namespace WireUp.Output;

/// <summary>Faults for the terminal, in words that somebody can act on.</summary>
internal static class FaultText
{
    /// <summary>What the readings say.</summary>
    public static void Show(Terminal terminal, Layout layout, ReadingSet set, Diagnosis? diagnosis)
    {
        if (diagnosis is null)
        {
            return;
        }

        terminal.Markup($"[bold]{Words.Plain(layout.Name)}[/], {Words.Count(set.Readings.Length, "reading", "readings")}");
        LengthStyle lengths = layout.Lengths;
        terminal.Markup(Words.Plain(lengths.Retell(DiagnosisWords.Verdict(set, diagnosis))));
        foreach (string remark in DiagnosisWords.Remarks(set, diagnosis))
        {
            terminal.Markup(Words.Plain(lengths.Retell(remark)));
        }

        terminal.Show(Suspects(diagnosis, lengths));
        HashSet<FaultAdvice> told = [];
        foreach ((int rank, RankedFault fault) in diagnosis.Faults.Take(DiagnosisWords.AtLength).Index())
        {
            ShowAdvice(terminal, (SuspectLetters.Of(rank), lengths), fault, told);
        }

        terminal.Show(Readings(set, diagnosis, lengths));
        ShowNext(terminal, diagnosis, lengths);
        terminal.Markup(DiagnosisWords.Caution);
    }

    /// <summary>Advice for symptoms in free words.</summary>
    public static void Show(Terminal terminal, ImmutableArray<SymptomRow> rows)
    {
        foreach (SymptomRow row in rows)
        {
            terminal.Markup($"[bold]{Words.Plain(row.Symptom)}[/] (common practice, no published source)");
            Line(terminal, "likely", row.Likely);
            Line(terminal, "test", row.Test);
            Line(terminal, "figures", row.Typical);
        }
    }

    private static Table Suspects(Diagnosis diagnosis, LengthStyle lengths)
    {
        Table table = Tables.Ruled("", "how sure", "where", "what", "from");
        int listed = SuspectLetters.Listed(diagnosis).Take(DiagnosisWords.Listed).Count();
        foreach ((int rank, RankedFault ranked) in diagnosis.Faults.Take(listed).Index())
        {
            table.AddRow(
                SuspectLetters.Of(rank),
                DiagnosisWords.Percent(ranked.Probability),
                Words.Plain(lengths.Retell(DiagnosisWords.Place(ranked))),
                Words.Plain(DiagnosisWords.State(ranked)),
                DiagnosisWords.From(ranked));
        }

        table.AddRow("", DiagnosisWords.Percent(DiagnosisWords.Others(diagnosis, listed)), "any other fault of the layout", "", "");
        table.AddRow("", DiagnosisWords.Percent(diagnosis.NotInModel), "nothing that rails and wires explain", "dirt, wheels, a decoder", "");
        table.AddRow("", DiagnosisWords.Percent(diagnosis.NothingWrong), "nothing", "no fault", "");
        return table;
    }

    private static void ShowAdvice(Terminal terminal, (string Letter, LengthStyle Lengths) words, RankedFault ranked, HashSet<FaultAdvice> told)
    {
        terminal.Markup($"[bold]{words.Letter}  {Words.Plain(words.Lengths.Retell(DiagnosisWords.Place(ranked)))}[/]");
        if (ranked.Confirm is { } confirm)
        {
            Line(terminal, "confirm", words.Lengths.Retell(DiagnosisWords.Of(confirm)));
        }

        foreach (FaultAdvice advice in ranked.Parts.Select(part => FaultAdvice.Of(part.Element.Kind, part.State)).Where(told.Add))
        {
            Line(terminal, "look", advice.Look);
            Line(terminal, "mend", advice.Mend);
            Line(terminal, "beware", advice.Beware);
        }
    }

    private static Table Readings(ReadingSet set, Diagnosis diagnosis, LengthStyle lengths)
    {
        Table table = Tables.Ruled("reading", "without fault", "with the likeliest", "off by");
        foreach ((MeterReading reading, ReadingFit fit) in set.Readings.Zip(diagnosis.Readings))
        {
            bool hasFigure = double.IsFinite(fit.Healthy);
            table.AddRow(
                Words.Plain(lengths.Retell(reading.ToString()!)),
                hasFigure ? DiagnosisWords.Value(reading, fit.Healthy) : "",
                hasFigure ? DiagnosisWords.Value(reading, fit.Best) : "",
                hasFigure ? DiagnosisWords.Off(fit) : "only raises the odds there");
        }

        return table;
    }

    private static void ShowNext(Terminal terminal, Diagnosis diagnosis, LengthStyle lengths)
    {
        if (diagnosis.Next.IsEmpty)
        {
            return;
        }

        Table table = Tables.Ruled("measure next", "tells", "takes", "from");
        foreach (NextReading next in diagnosis.Next)
        {
            table.AddRow(
                Words.Plain(lengths.Retell(next.Words)),
                DiagnosisWords.Bits(next),
                DiagnosisWords.Minutes(next),
                DiagnosisWords.Of(next.Reach));
        }

        terminal.Show(table);
    }

    private static void Line(Terminal terminal, string label, string text)
    {
        if (text.Length > 0)
        {
            terminal.Markup($"   {label,-11}{Words.Plain(text)}");
        }
    }
}
