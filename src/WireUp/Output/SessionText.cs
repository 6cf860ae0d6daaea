using System.Globalization;
using Spectre.Console;
using WireUp.Circuits.Sessions;
using WireUp.Layouts;

namespace WireUp.Output;

/// <summary>Operating sessions for the terminal.</summary>
internal static class SessionText
{
    /// <summary>A table of the three loadings, a verdict a district and booster, and what the figures rest on.</summary>
    public static void Show(Terminal terminal, SessionReport report, LoadingComparison loading, LengthStyle lengths)
    {
        terminal.Show(Loadings(loading, lengths));
        foreach (LoadingRow row in loading.Rows)
        {
            terminal.Markup($"[bold]{Words.Plain(row.Operated.Name)}[/]: {Words.Plain(row.Verdict)}.");
        }

        terminal.Markup(Words.Plain(RestsOn(report)));
        foreach (string left in LeftOut(report.Traffic))
        {
            terminal.Markup(Words.Plain(left));
        }

        terminal.Markup("A model of operators who choose at random: no timetable, no switching of cars, no stalled motor, no power-up. See docs/loading.md.");
    }

    private static Table Loadings(LoadingComparison loading, LengthStyle lengths)
    {
        bool placed = loading.Districts.Any(row => row.Placed is not null);
        string[] columns = ["district, booster, all", "track", "rule", .. placed ? ["placed"] : Array.Empty<string>(), "mean", "50 %", "95 %", "99 %", "100 % (largest seen)"];
        Table table = new() { Border = TableBorder.Simple };
        foreach (string column in columns)
        {
            table.AddColumn(new TableColumn(column).NoWrap());
        }

        foreach (LoadingRow row in loading.Rows)
        {
            SessionCurrent operated = row.Operated;
            string[] cells =
            [
                Words.Plain(operated.Name),
                lengths.Say(operated.Track.Meters, 1),
                Words.Number(row.Rule.Amperes, "A"),
                .. row.Placed is { } amps ? [Words.Number(amps.Amperes, "A")] : Array.Empty<string>(),
                $"{Words.Number(operated.Mean.Amperes, "A")} ± {Number(operated.MeanError.Amperes)}",
                .. operated.Percentiles.Select(Percentile),
                Words.Number(operated.Largest.Amperes, "A"),
            ];
            table.AddRow(cells);
        }

        return table;
    }

    private static string Percentile(CurrentPercentile percentile) =>
        $"{Words.Number(percentile.Current.Amperes, "A")} ({Number(percentile.Low.Amperes)}–{Number(percentile.High.Amperes)})";

    private static string RestsOn(SessionReport report)
    {
        SessionTraffic traffic = report.Traffic;
        string within = $"{report.Options.ToleratedPart.Percent.ToString("0.##", CultureInfo.InvariantCulture)} % or {report.Options.ToleratedError.Milliamperes.ToString("0", CultureInfo.InvariantCulture)} mA";
        string sure = report.WasStopped ? "stopped before it was sure enough"
            : report.IsSure ? $"sure enough: the standard error of every 99th percentile is within {within}"
            : $"the most sessions were reached before every 99th percentile was sure within {within}";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{report.Sessions} sessions of {report.Options.Length.Hours:0.##} h, seed {report.Options.Seed}; {sure}. A session: {traffic.Trips:0} journeys, {traffic.Moving:0.0} of {traffic.MovingAtOnce} locomotives moving on average, {traffic.Waits:0} waits, {traffic.OtherWays:0} other ways taken, {traffic.Lifted:0.0} trains lifted out of a jam. In brackets: 95 % intervals; ±: one standard error.");
    }

    private static IEnumerable<string> LeftOut(SessionTraffic traffic)
    {
        if (traffic.Moving < traffic.MovingAtOnce / 2.0)
        {
            yield return "Less than half of the locomotives that may move did so on average: journeys are short, or trains stand in each other's way. With more room more would flow.";
        }

        if (traffic.IsAssumed)
        {
            yield return "No locomotives are listed; two of the scale's usual ones were taken.";
        }

        if (!traffic.NotMadeUp.IsEmpty)
        {
            yield return $"Too few locomotives are left for: {string.Join(", ", traffic.NotMadeUp)}. These trains did not run.";
        }

        if (!traffic.LeftOver.IsEmpty)
        {
            yield return $"There was no room, in some session, for: {string.Join(", ", traffic.LeftOver)}.";
        }
    }

    private static string Number(double value) => value.ToString("F2", CultureInfo.InvariantCulture);
}
