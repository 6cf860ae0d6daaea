using Spectre.Console;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Output;

/// <summary>Results as tables for the terminal.</summary>
internal static class Tables
{
    /// <summary>One verdict a district.</summary>
    public static Table Districts(PowerReport report, LengthStyle lengths)
    {
        Table table = Ruled(
            "district", "booster", "volts", "design load", "lowest volts", "drop", "at", "lowest fault", "at", "trip", "coin test");
        foreach (DistrictPower district in report.Districts)
        {
            table.AddRow(
                Words.Plain(district.District),
                Words.Plain(district.Booster),
                Words.Number(district.SourceVolts.Volts, "V", 1),
                Words.Number(district.DesignLoad.Amperes, "A"),
                Words.Volts(district.LowestVolts.Volts.Volts),
                Words.Number(district.LowestVolts.Drop.Percent, "%", 1),
                Words.Plain(lengths.Say(district.LowestVolts.At)),
                Words.Number(district.LowestFault.FaultCurrent.Amperes, "A", 1),
                Words.Plain(lengths.Say(district.LowestFault.At)),
                Words.Number(district.Trip.Amperes, "A", 1),
                district.CoinTestPasses ? $"pass, {district.FaultOverTrip.ToString("F1", System.Globalization.CultureInfo.InvariantCulture)} × trip" : "[bold red]FAIL[/]");
        }

        return table;
    }

    /// <summary>The two loads of each district, and what trains draw that meet behind each booster, beside what breaker and booster bear.</summary>
    public static Table Loads(PowerReport report, IEnumerable<Booster> boosters, MeetingLoads meeting)
    {
        Table table = Ruled("behind", "load by rule", "trains that meet", "bears");
        foreach (DistrictPower district in report.Districts)
        {
            table.AddRow(
                Words.Plain($"breaker of {district.District}"),
                Words.Number(district.DesignLoad.Amperes, "A"),
                meeting.OfDistrict(district.District) is { } met ? Words.Number(met.Amperes, "A") : "",
                Words.Number(district.Trip.Amperes, "A", 1));
        }

        foreach (Booster booster in boosters)
        {
            if (meeting.OfBooster(booster.Name) is { } met)
            {
                table.AddRow(Words.Plain(booster.Name), "", Words.Number(met.Amperes, "A"), Words.Number(booster.Amps.Amperes, "A", 1));
            }
        }

        return table;
    }

    /// <summary>The sections with the largest loop resistance.</summary>
    public static Table WorstSections(PowerReport report, int most, LengthStyle lengths)
    {
        Table table = Ruled("section", "district", "worst at", "loop", "fault current");
        foreach (SectionPower section in report.Sections
            .OrderByDescending(section => section.LargestLoop.Loop.Ohms)
            .ThenBy(section => section.Section)
            .Take(most))
        {
            table.AddRow(
                Words.Plain(section.Section.Name),
                Words.Plain(section.District),
                lengths.Say(section.LargestLoop.At.MetresFromA),
                Words.Number(section.LargestLoop.Loop.Ohms, "Ω", 3),
                Words.Number(section.LargestLoop.FaultCurrent.Amperes, "A", 1));
        }

        return table;
    }

    /// <summary>Volts at the asked places.</summary>
    public static Table Places(PowerReport report, LengthStyle lengths)
    {
        Table table = Ruled("place", "volts", "drawn");
        foreach (PlaceVolts place in report.Places)
        {
            table.AddRow(
                Words.Plain(lengths.Say(place.At)),
                Words.Number(place.Volts.Volts, "V", 3),
                place.Drawn is { } drawn ? Words.Number(drawn.Amperes, "A", 3) : "");
        }

        return table;
    }

    /// <summary>What a train over the gap between two boosters carries, the worst gap of each two districts first.</summary>
    public static Table TrainsOverGaps(IEnumerable<TrainOverGap> trains, LengthStyle lengths)
    {
        Table table = Ruled("train over the gap at", "from", "to", "volts apart", "carries");
        foreach (TrainOverGap train in trains)
        {
            table.AddRow(
                Words.Plain(lengths.Retell(train.At.ToString())),
                Words.Plain(train.District),
                Words.Plain(train.OtherDistrict),
                Words.Number(train.Difference.Volts, "V"),
                Words.Number(train.Current.Amperes, "A"));
        }

        return table;
    }

    /// <summary>Every usual size of wire with what a pair of it does.</summary>
    public static Table Wires(IEnumerable<WireRow> rows)
    {
        Table table = Ruled("wire", "loop", "drop", "coin at the end draws", "carries for good", "verdict");
        foreach (WireRow row in rows)
        {
            table.AddRow(
                Words.Plain(row.Wire.ToString()!),
                Words.Number(row.Loop.Ohms, "Ω", 3),
                Words.Number(row.Drop.Percent, "%", 1),
                Words.Number(row.FaultCurrent.Amperes, "A", 1),
                Words.Number(row.Carries.Amperes, "A", 1),
                row.Broken.IsEmpty ? "[bold]will do[/]" : Words.Plain(string.Join("; ", row.Broken)));
        }

        return table;
    }

    /// <summary>What a plan adds, counted by kind.</summary>
    public static Table ProposalCounts(PlanResult plan)
    {
        Table table = Ruled("adds", "count");
        foreach (IGrouping<ProposalKind, Proposal> kind in plan.Proposals.GroupBy(proposal => proposal.Kind).OrderBy(group => group.Key))
        {
            table.AddRow(Words.Of(kind.Key), kind.Count().ToString(System.Globalization.CultureInfo.InvariantCulture));
        }

        return table;
    }

    /// <summary>Plans side by side, one a row.</summary>
    public static Table Comparison(IEnumerable<(string Question, PlanResult Plan)> outcomes, LengthStyle lengths)
    {
        Table table = Ruled("what if", "passes", "reversing", "cuts", "districts", "boosters", "feeders", "bus", "drop", "fault/trip");
        foreach ((string question, PlanResult plan) in outcomes)
        {
            PlanFigures figures = PlanFigures.Of(plan);
            table.AddRow(
                Words.Plain(question),
                figures.IsFinished ? "yes" : "[bold red]no[/]",
                Words.Plain(Whole(figures.ReversingSections)),
                Whole(figures.RailsToCut),
                Whole(figures.Districts),
                Whole(figures.Boosters),
                Whole(figures.Feeders),
                lengths.Say(figures.Bus.Meters, 1),
                Words.Number(figures.LargestDrop.Percent, "%", 1),
                Words.Number(figures.LeastFaultOverTrip, "×", 1));
        }

        return table;

        static string Whole(int count) => count.ToString(System.Globalization.CultureInfo.InvariantCulture);
    }

    /// <summary>Value and bound of each thing the planner minimised.</summary>
    public static Table Objectives(PlanResult plan)
    {
        Table table = Ruled("minimised", "plan needs", "cannot be less than", "proved best");
        foreach (Objective objective in plan.Objectives)
        {
            table.AddRow(
                Words.Plain(objective.Name),
                objective.Value.ToString("0.##", System.Globalization.CultureInfo.InvariantCulture),
                objective.Bound.ToString("0.##", System.Globalization.CultureInfo.InvariantCulture),
                objective.IsOptimal ? "yes" : "no");
        }

        return table;
    }

    /// <summary>Drop and fault current for each gauge on hand.</summary>
    public static Table Gauges(PlanResult plan)
    {
        Table table = Ruled("district", "all bus in", "drop", "lowest fault", "verdict", "planned");
        foreach (GaugeRow row in plan.Gauges)
        {
            table.AddRow(
                Words.Plain(row.District),
                Words.Plain(row.Wire.ToString() ?? string.Empty),
                Words.Number(row.Drop.Percent, "%", 1),
                Words.Number(row.FaultCurrent.Amperes, "A", 1),
                Words.Plain(row.Verdict.Length == 0 ? "would do" : row.Verdict),
                row.Chosen ? $"[bold]{plan.After.Lengths.Say(row.Planned.Meters, 1)}[/]" : string.Empty);
        }

        return table;
    }

    /// <summary>An empty table in the style of all tables.</summary>
    public static Table Ruled(params string[] columns)
    {
        Table table = new() { Border = TableBorder.Simple };
        foreach (string column in columns)
        {
            table.AddColumn(new TableColumn(column).NoWrap());
        }

        return table;
    }
}
