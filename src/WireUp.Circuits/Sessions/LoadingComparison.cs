using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Rails;

namespace WireUp.Circuits.Sessions;

/// <summary>The three ways to load a railway side by side: by rule, by loads that somebody placed, by operating sessions.</summary>
/// <param name="Districts">One row a district that trains run on, in the order of the layout.</param>
/// <param name="Boosters">One row a booster of these.</param>
/// <param name="Railway">The whole railway.</param>
public sealed record LoadingComparison(ImmutableArray<LoadingRow> Districts, ImmutableArray<LoadingRow> Boosters, LoadingRow Railway)
{
    /// <summary>Every row: districts, boosters, the whole.</summary>
    public IEnumerable<LoadingRow> Rows => [.. Districts, .. Boosters, Railway];

    /// <summary>Puts the results together.</summary>
    /// <param name="graph">The rails.</param>
    /// <param name="power">The solved circuit, with what placed loads draw.</param>
    /// <param name="session">What came out of the sessions.</param>
    public static LoadingComparison Of(RailGraph graph, PowerReport power, SessionReport session)
    {
        DesignLoad rule = power.DesignLoad ?? DesignLoad.Of(graph.Layout);
        FeedMap feeds = new(graph);
        double all = session.Districts.Sum(district => district.Track.Meters);
        Dictionary<string, string> boosterOf = feeds.Districts.ToDictionary(district => district.Name, district => district.Booster, StringComparer.Ordinal);
        ILookup<string, double> placed = power.Places
            .Where(place => place.Drawn is not null)
            .Select(place => (District: feeds.At(place.At), place.Drawn!.Value.Amperes))
            .Where(load => load.District != FeedMap.None)
            .ToLookup(load => feeds.Districts[load.District].Name, load => load.Amperes, StringComparer.Ordinal);
        return new(
            [.. session.Districts.Select(district => Row(district, OfDistrict(district), name => name == district.Name))],
            [.. session.Boosters.Select(booster => Row(booster, rule.ForDistrict(booster.Track.Meters / all), name => boosterOf[name] == booster.Name))],
            Row(session.Railway, rule.Total, _ => true));

        ElectricCurrent OfDistrict(SessionCurrent district) =>
            power.Districts.FirstOrDefault(one => one.District == district.Name)?.DesignLoad ?? rule.ForDistrict(district.Track.Meters / all);

        LoadingRow Row(SessionCurrent operated, ElectricCurrent byRule, Func<string, bool> isFed) => new(
            byRule,
            !power.Places.Any(place => place.Drawn is not null) ? null : ElectricCurrent.FromAmperes(placed.Where(group => isFed(group.Key)).Sum(group => group.Sum())),
            operated);
    }
}

/// <summary>The loads of one district or booster.</summary>
/// <param name="Rule">The design load, by the rule of moving locomotives with a margin for growth.</param>
/// <param name="Placed">The sum of the placed loads, or null where none are.</param>
/// <param name="Operated">The current over operating sessions.</param>
public sealed record LoadingRow(ElectricCurrent Rule, ElectricCurrent? Placed, SessionCurrent Operated)
{
    /// <summary>In plain words.</summary>
    public string Verdict
    {
        get
        {
            CurrentPercentile most = Operated.Percentile99;
            double error = Math.Max(most.High.Amperes - most.Current.Amperes, most.Current.Amperes - most.Low.Amperes);
            string needs = string.Create(
                CultureInfo.InvariantCulture,
                $"the rule asks {Rule.Amperes:F2} A, the sessions needed {Operated.Largest.Amperes:F2} A at most, 99 % of the time no more than {most.Current.Amperes:F2} ± {error:F2} A");
            return Operated.Largest <= Rule ? $"{needs}: the rule covers it"
                : most.High <= Rule ? $"{needs}: the rule covers all but moments"
                : most.Low > Rule ? $"{needs}: the rule is too little here"
                : $"{needs}: about what the rule asks";
        }
    }
}
