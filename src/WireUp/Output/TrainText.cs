using Spectre.Console;
using WireUp.Circuits.Trains;
using WireUp.Layouts;

namespace WireUp.Output;

/// <summary>The worst places of trains for the terminal.</summary>
internal static class TrainText
{
    private const int MostShown = 16;

    /// <summary>The worst of each district, then where the trains of the worst of all stand.</summary>
    public static void Show(Terminal terminal, WorstTrainsReport report, LengthStyle lengths)
    {
        if (report.Worst is not { } worst)
        {
            return;
        }

        terminal.Markup($"[bold]Worst places of {Words.Count(report.Trains.Length, "train", "trains")}[/], at least "
            + $"{lengths.Say(report.Spacing.Meters)} apart: {Words.Plain(Names(report))}");
        Table districts = Tables.Ruled("district", "lowest volts", "at", "train", "worst drop");
        foreach (DistrictTrains district in report.Districts)
        {
            districts.AddRow(
                Words.Plain(district.District),
                Words.Volts(district.LowestVolts.Volts),
                Words.Plain(lengths.Say(district.Trains[0].At)),
                Words.Plain(district.Trains[0].Train),
                $"at least {Words.Number(district.AtLeast.Volts, "V")}, at most {Words.Number(district.AtMost.Volts, "V")}");
        }

        terminal.Show(districts);
        terminal.Markup($"  They stand so for district {Words.Plain(worst.District)}:");
        Table trains = Tables.Ruled("train", "engine at", "facing end", "district", "volts");
        foreach (StandingTrainPower train in worst.Trains.Take(MostShown))
        {
            trains.AddRow(
                Words.Plain(train.Train), Words.Plain(lengths.Say(train.At)), train.Facing, Words.Plain(train.District), Words.Volts(train.Volts.Volts));
        }

        terminal.Show(trains);
        int left = report.Trains.Length - worst.Trains.Length;
        if (left > 0)
        {
            terminal.Markup($"  There is no room for {Words.Count(left, "more train", "more trains")}.");
        }
    }

    private static string Names(WorstTrainsReport report) => string.Join(", ", report.Trains
        .GroupBy(train => train)
        .Select(group => (group.Count() == 1 ? "" : $"{Words.Count(group.Count(), "×", "×")} ")
            + $"{group.Key.Name} {Words.Number(group.Key.Total.Amperes, "A")}"));
}
