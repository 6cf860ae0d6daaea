using System.Collections.Immutable;
using System.Globalization;
using Spectre.Console;
using UnitsNet;
using WireUp.Faults;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using Layout = WireUp.Layouts.Layout;

namespace WireUp.Output;

/// <summary>Faults for the terminal, in words that somebody can act on.</summary>
internal static class FaultText
{
    /// <summary>Suspects that are told at length: the likeliest and its runner-up.</summary>
    private const int AtLength = 2;

    /// <summary>Below so many volts a place has no power.</summary>
    private const double DeadVolts = 0.5;

    /// <summary>Suspects listed at most; the others are summed up.</summary>
    private const int Listed = 10;

    /// <summary>What the readings say.</summary>
    public static void Show(Terminal terminal, Layout layout, ReadingSet set, Diagnosis? diagnosis, int lettered)
    {
        if (diagnosis is null)
        {
            return;
        }

        terminal.Markup($"[bold]{Words.Plain(layout.Name)}[/], {Words.Count(set.Readings.Length, "reading", "readings")}");
        terminal.Markup(Words.Plain(Verdict(set, diagnosis, lettered)));
        foreach (string remark in Remarks(set, diagnosis))
        {
            terminal.Markup(Words.Plain(remark));
        }

        terminal.Show(Suspects(diagnosis, lettered));
        HashSet<FaultAdvice> told = [];
        foreach ((int rank, RankedFault fault) in diagnosis.Faults.Take(AtLength).Index())
        {
            ShowAdvice(terminal, SuspectLetters.Of(rank, lettered), fault, told);
        }

        terminal.Show(Readings(set, diagnosis));
        ShowNext(terminal, diagnosis);
        terminal.Markup("Low voltage only; ohms with the power off; never measure on mains.");
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

    /// <summary>What a fault is, with its resistance.</summary>
    public static string State(Fault fault)
    {
        string what = FaultAdvice.Of(fault.Element.Kind, fault.State).What;
        return fault is not { Ohms: { } ohms, LeastOhms: { } least, MostOhms: { } most } ? what
            : ohms >= least && ohms <= most ? $"{what}, {Ohms(ohms)} ({Ohms(least)} to {Ohms(most)})"
            : $"{what}, {Ohms(least)} to {Ohms(most)}";
    }

    /// <summary>A probability as a percentage with as many digits as mean something.</summary>
    public static string Percent(double probability) => probability switch
    {
        >= 0.999 => "> 99.9 %",
        >= 0.99 => string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(1000 * probability) / 10:0.0} %"),
        >= 0.1 => string.Create(CultureInfo.InvariantCulture, $"{100 * probability:0} %"),
        >= 0.001 => string.Create(CultureInfo.InvariantCulture, $"{100 * probability:0.0} %"),
        _ => "< 0.1 %",
    };

    private static string Verdict(ReadingSet set, Diagnosis diagnosis, int lettered)
    {
        if (diagnosis.Contradiction is { } worst)
        {
            return string.Create(CultureInfo.InvariantCulture, $"No fault of the layout explains all readings: '{set.Readings[worst.Reading]}' is {worst.Sigmas:0.0} standard deviations off the best explanation. ")
                + "Take it again, check place and turnouts, and see that the layout file says what is built; the ranking below is a guess.";
        }

        if (diagnosis.NothingWrong > 0.5)
        {
            return $"The readings are those of a railway without fault ({Percent(diagnosis.NothingWrong)}).";
        }

        if (diagnosis.NotInModel > 0.5)
        {
            return $"Most likely it is nothing that rails and wires explain ({Percent(diagnosis.NotInModel)}): dirt on the rail head, wheels, a decoder, another load.";
        }

        string alike = Alike(diagnosis, lettered);
        return alike.Length > 0
            ? $"{alike} cannot be told apart by these readings; the next reading parts them."
            : string.Create(CultureInfo.InvariantCulture, $"Uncertainty left: {diagnosis.Bits:0.0} bits.");
    }

    /// <summary>What is odd about the question itself: a place that would be dead without any fault.</summary>
    public static IEnumerable<string> Remarks(ReadingSet set, Diagnosis diagnosis) => set.Readings.Zip(diagnosis.Readings)
        .Where(one => one.First is MeterReading.Running or MeterReading.Volts && one.Second.Healthy < DeadVolts)
        .Select(one => $"'{one.First}': no power reaches this place even without a fault, as turnouts and switches are said to stand. Say how they stood: 'when T1.diverging'.");

    /// <summary>Letters of the explanations that read the same as the likeliest; empty where there is only that one.</summary>
    private static string Alike(Diagnosis diagnosis, int lettered)
    {
        string[] letters = [.. SuspectLetters.Listed(diagnosis).Take(lettered).Index()
            .Where(fault => fault.Item.Group == diagnosis.Faults[0].Group).Select(fault => SuspectLetters.Of(fault.Index, lettered))];
        return letters.Length > 1 ? $"{string.Join(", ", letters[..^1])} and {letters[^1]}" : "";
    }

    private static Table Suspects(Diagnosis diagnosis, int lettered)
    {
        Table table = Tables.Ruled("", "how sure", "where", "what", "from");
        int listed = SuspectLetters.Listed(diagnosis).Take(Listed).Count();
        foreach ((int rank, RankedFault ranked) in diagnosis.Faults.Take(listed).Index())
        {
            table.AddRow(
                SuspectLetters.Of(rank, lettered),
                Percent(ranked.Probability),
                Words.Plain(string.Join(" and ", ranked.Parts.Select(part => part.Element.Place))),
                Words.Plain(string.Join(" and ", ranked.Parts.Select(State))),
                string.Join(" and ", ranked.Parts.Select(part => Of(part.Element.Reach)).Distinct()));
        }

        double others = diagnosis.Unlisted + diagnosis.Faults.Skip(listed).Sum(fault => fault.Probability);
        table.AddRow("", Percent(others), "any other fault of the layout", "", "");
        table.AddRow("", Percent(diagnosis.NotInModel), "nothing that rails and wires explain", "dirt, wheels, a decoder", "");
        table.AddRow("", Percent(diagnosis.NothingWrong), "nothing", "no fault", "");
        return table;
    }

    private static void ShowAdvice(Terminal terminal, string letter, RankedFault ranked, HashSet<FaultAdvice> told)
    {
        terminal.Markup($"[bold]{letter}  {Words.Plain(string.Join(" and ", ranked.Parts.Select(part => part.Element.Place)))}[/]");
        if (ranked.Confirm is { } confirm)
        {
            Line(terminal, "confirm", Said(confirm));
        }

        foreach (FaultAdvice advice in ranked.Parts.Select(part => FaultAdvice.Of(part.Element.Kind, part.State)).Where(told.Add))
        {
            Line(terminal, "look", advice.Look);
            Line(terminal, "mend", advice.Mend);
            Line(terminal, "beware", advice.Beware);
        }
    }

    private static Table Readings(ReadingSet set, Diagnosis diagnosis)
    {
        Table table = Tables.Ruled("reading", "without fault", "with the likeliest", "off by");
        foreach ((MeterReading reading, ReadingFit fit) in set.Readings.Zip(diagnosis.Readings))
        {
            bool hasFigure = double.IsFinite(fit.Healthy);
            table.AddRow(
                Words.Plain(reading.ToString()!),
                hasFigure ? Value(reading, fit.Healthy) : "",
                hasFigure ? Value(reading, fit.Best) : "",
                hasFigure ? string.Create(CultureInfo.InvariantCulture, $"{fit.Sigmas:0.0} σ") : "only raises the odds there");
        }

        return table;
    }

    private static void ShowNext(Terminal terminal, Diagnosis diagnosis)
    {
        if (diagnosis.Next.IsEmpty)
        {
            return;
        }

        Table table = Tables.Ruled("measure next", "tells", "takes", "from");
        foreach (NextReading next in diagnosis.Next)
        {
            table.AddRow(
                Words.Plain(next.Words),
                string.Create(CultureInfo.InvariantCulture, $"{next.Bits:0.00} bits"),
                string.Create(CultureInfo.InvariantCulture, $"{next.Minutes:0.#} min"),
                Of(next.Reach));
        }

        terminal.Show(table);
    }

    /// <summary>From where somebody works.</summary>
    public static string Of(Reach reach) => reach == Reach.Above ? "above" : "below";

    private static string Said(NextReading next) =>
        string.Create(CultureInfo.InvariantCulture, $"{next.Words} ({next.Minutes:0.#} min, from {Of(next.Reach)})");

    private static string Value(MeterReading reading, double value) => reading switch
    {
        MeterReading.Ohms or MeterReading.Continuity => value >= 1e6 ? "open" : Ohms(ElectricResistance.FromOhms(value)),
        MeterReading.Amps or MeterReading.Breaker => Words.Number(value, "A"),
        _ => value < 0.1 ? Words.Number(1000 * value, "mV", 0) : Words.Number(value, "V"),
    };

    private static string Ohms(ElectricResistance resistance) => resistance.Ohms switch
    {
        >= 1000 => string.Create(CultureInfo.InvariantCulture, $"{resistance.Ohms / 1000:0.#} kohm"),
        >= 10 => string.Create(CultureInfo.InvariantCulture, $"{resistance.Ohms:0} ohm"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{resistance.Ohms:0.##} ohm"),
    };

    private static void Line(Terminal terminal, string label, string text)
    {
        if (text.Length > 0)
        {
            terminal.Markup($"   {label,-11}{Words.Plain(text)}");
        }
    }
}
