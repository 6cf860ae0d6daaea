using System.Globalization;
using Spectre.Console;
using UnitsNet;
using WireUp.Circuits.Devices;
using WireUp.Circuits.Signals;

namespace WireUp.Output;

/// <summary>What breakers, wires and signal do in time, one line a district.</summary>
internal static class ProtectionText
{
    /// <summary>The table, and a sentence for each kind of rail that is clearly worse at the signal's frequency; nothing where nothing is fed.</summary>
    public static void Show(Terminal terminal, ProtectionReport report)
    {
        if (report.Districts.IsEmpty)
        {
            return;
        }

        terminal.Show(Of(report));
        foreach (RailAtSignal rail in report.Rails.Where(rail => rail.ResistanceRatio > 1.1))
        {
            terminal.Markup(Words.Plain($"At the signal's frequency {rail.Rail.Alloy} rail of code {rail.Rail.Code} has about {Number(rail.ResistanceRatio)} times the resistance shown here (skin effect)."));
        }
    }

    private static Table Of(ProtectionReport report)
    {
        bool hasSignal = report.Districts.Any(district => district.Restart is not null || !district.Ends.IsEmpty);
        Table table = new() { Border = TableBorder.Simple };
        foreach (string column in (string[])["district", "clears a coin in", "before its booster", "wires bear a short for", .. hasSignal ? (string[])["restarts", "signal at the far end"] : []])
        {
            table.AddColumn(column);
        }

        foreach (DistrictProtection district in report.Districts)
        {
            string[] always = [Words.Plain(district.District), Clears(district), Order(report, district), Wires(district)];
            table.AddRow([.. always, .. hasSignal ? (string[])[Restart(district.Restart), Signal(district)] : []]);
        }

        foreach (BoosterRestart booster in hasSignal ? report.Boosters : [])
        {
            table.AddRow(Words.Plain($"all of {booster.Booster}"), "", "", "", Restart(booster.Restart), "");
        }

        return table;
    }

    private static string Clears(DistrictProtection district) => district.Clears is { } time ? Time(time) : "[bold red]never[/]";

    private static string Order(ProtectionReport report, DistrictProtection district) => district.BoosterFirst is not { } first
        ? report.Districts.Count(other => other.Booster == district.Booster) > 1 ? "yes" : "–"
        : $"[yellow]{(first.IsCertain ? "no" : "not surely")}[/], {Number(first.From.Amperes)} to {Number(first.To.Amperes)} A";

    private static string Wires(DistrictProtection district)
    {
        WireStress? worst = district.Wires.IsEmpty ? null : district.Wires.MinBy(wire => wire.Allowed / wire.Clears);
        return worst is null ? "–"
            : worst.Passes ? Time(worst.Allowed)
            : $"[yellow]{Words.Plain(worst.Name)} {Time(worst.Allowed)} only[/]";
    }

    private static string Restart(RestartVerdict? restart)
    {
        if (restart is null)
        {
            return "–";
        }

        string most = restart.IsMostOpen ? $"{restart.Most} engines or more" : Words.Count(restart.Most, "engine", "engines");
        return restart.OpensAfter is null && restart.TrainThatCannot is null ? most : $"[yellow]{most}, {restart.Expected} stand there[/]";
    }

    private static string Signal(DistrictProtection district)
    {
        if (district.Ends.IsEmpty)
        {
            return "–";
        }

        BusEnd slowest = district.Ends.MaxBy(end => end.LoadTime)!, loudest = district.Ends.MaxBy(end => end.Peak)!;
        string time = $"{Number(slowest.LoadTime.Microseconds)} of {Number(slowest.AllowedTime.Microseconds)} µs";
        string speed = slowest.IsFastEnough ? time : $"[yellow]{Words.Plain(slowest.End)} late, {time}[/]";
        return loudest.IsCalm
            ? speed
            : $"{speed}; [yellow]{Words.Plain(loudest.End)} rings to {Number(loudest.Peak.Volts)} V[/], {Number(loudest.Terminator.Resistor.Ohms)} Ω + {Number(loudest.Terminator.Capacitor.Nanofarads)} nF damp it";
    }

    private static string Time(Duration time) => time.Seconds < 1 ? $"{Number(time.Milliseconds)} ms" : $"{Number(time.Seconds)} s";

    /// <summary>Two significant digits below ten, whole numbers above.</summary>
    private static string Number(double value) => Math.Abs(value) >= 9.95
        ? value.ToString("0", CultureInfo.InvariantCulture)
        : value.ToString(Math.Abs(value) >= 0.995 ? "0.#" : "0.##", CultureInfo.InvariantCulture);
}
