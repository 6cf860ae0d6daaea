using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using Spectre.Console;
using WireUp.Faults;
using WireUp.Files;
using WireUp.Layouts;
using Layout = WireUp.Layouts.Layout;

namespace WireUp.Output;

/// <summary>The sheet of a yearly survey: which joints to measure, what they should show, a box for what they do.</summary>
internal sealed class SurveyAnswer(Terminal terminal)
{
    private const int Most = 2000;

    /// <summary>Prints the sheet.</summary>
    /// <exception cref="InputRefused">The count is out of range, or there is nothing to survey.</exception>
    public int Show(Layout layout, FaultPriors priors, ReadingSet set, int count, bool json, CancellationToken cancel)
    {
        if (count is < 1 or > Most)
        {
            throw new InputRefused(string.Create(CultureInfo.InvariantCulture, $"--survey {count}: expected a number from 1 to {Most}"));
        }

        ImmutableArray<SurveyRow> rows = FaultSurvey.Of(layout, priors, set.LoadBox, count, cancel);
        if (rows.IsEmpty)
        {
            throw new InputRefused($"'{layout.Name}' has no joint that a load draws current through: it needs a booster with its wiring");
        }

        if (json)
        {
            terminal.Json(new JsonObject { ["survey"] = ResultJson.Array(rows, Json), ["load-amps"] = ResultJson.Number(set.LoadBox.Amperes) });
        }
        else
        {
            Show(layout, set, rows);
        }

        return ExitCode.Fine;
    }

    private static JsonObject Json(SurveyRow row)
    {
        JsonObject node = FaultJson.Part(row.Part);
        node["from-point"] = row.Reading.From.ToString();
        node["to-point"] = row.Reading.To.ToString();
        node["load-at"] = row.Reading.Load!.At.ToString();
        node["expected-volts"] = ResultJson.Number(row.Expected.Volts);
        node["suspect-volts"] = ResultJson.Number(row.Suspect.Volts);
        node["probability"] = ResultJson.Number(row.Probability);
        node["lost-volts"] = ResultJson.Number(row.LostVolts.Volts);
        node["minutes"] = ResultJson.Number(row.Minutes);
        return node;
    }

    private void Show(Layout layout, ReadingSet set, ImmutableArray<SurveyRow> rows)
    {
        terminal.Markup($"[bold]{Words.Plain(layout.Name)}[/]: joints most worth measuring, turnouts in their first position");
        Table table = Tables.Ruled("", "from", "to", "load across", "should show", "mend above", "measured");
        foreach ((int i, SurveyRow row) in rows.Index())
        {
            table.AddRow(
                (i + 1).ToString(CultureInfo.InvariantCulture),
                Words.Plain(layout.Lengths.Retell(row.Reading.From.ToString()!)),
                Words.Plain(layout.Lengths.Retell(row.Reading.To.ToString()!)),
                Words.Plain(layout.Lengths.Retell(row.Reading.Load!.At.ToString()!)),
                Words.Number(row.Expected.Millivolts, "mV", 1),
                Words.Number(row.Suspect.Millivolts, "mV", 0),
                Words.Plain("[      ] mV"));
        }

        terminal.Show(table);
        terminal.Markup(Words.Plain(string.Create(CultureInfo.InvariantCulture,
            $"Load {set.LoadBox.Amperes} A at full volts, nothing else on the track; {rows.Sum(row => row.Minutes):0} minutes of work, all from above. Worth by chance of a fault × volts it would cost ÷ minutes.")));
    }
}
