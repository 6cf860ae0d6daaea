using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits;

/// <summary>
/// The current a railway must be able to carry at one time: moving locomotives at their running current, the others standing, lit
/// cars, and a margin for growth. Diversity is in the count of moving locomotives: not the fleet moves but what the operators
/// drive (<see cref="Stock.MovingAtOnce"/>); the ones that draw most are taken as moving.
/// </summary>
/// <param name="Parts">What it is made of.</param>
/// <param name="HeaviestTrain">Current of the train or single locomotive that draws most; it may stand in any district.</param>
/// <param name="GrowthMargin">Part of the working current added for growth.</param>
/// <param name="IsAssumed">True where the layout lists no locomotives and two of the scale's usual ones are assumed to move.</param>
/// <remarks>Common practice, no published source: I = Σ moving + Σ standing + cars, one quarter more for growth (shared/constants.csv).</remarks>
public sealed record DesignLoad(
    ImmutableArray<DesignLoadPart> Parts,
    ElectricCurrent HeaviestTrain,
    Ratio GrowthMargin,
    bool IsAssumed)
{
    // One operator with one locomotive, and one train that runs by itself: the least that counts as operating.
    internal const int AssumedMoving = 2;

    /// <summary>Whether each cab drives one train at a time, as under direct control: then a district never has more than the heaviest train.</summary>
    public bool IsByCab { get; init; }

    /// <summary>What a track for setting up decoders has to carry: the engine that draws most while it stands.</summary>
    public ElectricCurrent Standing { get; init; } = ElectricCurrent.Zero;

    /// <summary>Working current without margin.</summary>
    public ElectricCurrent Working => ElectricCurrent.FromAmperes(Parts.Sum(part => part.Total.Amperes));

    /// <summary>Working current with the margin for growth.</summary>
    public ElectricCurrent Total => Working * (1 + GrowthMargin.DecimalFractions);

    /// <summary>
    /// Design load of a district that has this part of all fed track: its part of <see cref="Total"/>, and never less than
    /// <see cref="HeaviestTrain"/>, which may be anywhere. The districts' loads can therefore add up to more than the total. Where a cab
    /// drives one train at a time (<see cref="IsByCab"/>) it is that train, however many blocks are set to the cab.
    /// </summary>
    /// <param name="shareOfTrack">Length of the district's track over that of all fed track, 0 to 1.</param>
    public ElectricCurrent ForDistrict(double shareOfTrack) =>
        IsByCab ? HeaviestTrain : ElectricCurrent.FromAmperes(Math.Max(Total.Amperes * shareOfTrack, HeaviestTrain.Amperes));

    /// <summary>Design load of districts with this part of all fed track: <see cref="Standing"/> where they are for programming only.</summary>
    /// <param name="shareOfTrack">Length of their track over that of all fed track, 0 to 1.</param>
    /// <param name="use">What their power is for.</param>
    public ElectricCurrent ForDistrict(double shareOfTrack, DistrictUse use) =>
        use == DistrictUse.Programming ? Standing : ForDistrict(shareOfTrack);

    /// <summary>The design load of a layout's stock.</summary>
    public static DesignLoad Of(Layout layout)
    {
        bool byCab = layout.Control == ControlSystem.Direct;
        Stock stock = layout.Stock;
        Ratio margin = Ratio.FromDecimalFractions(Constants.GrowthMargin.Value);
        if (!stock.Locomotives.Any(locomotive => locomotive.Count > 0))
        {
            ScaleRow scale = ScaleTable.FindOrUsual(layout.Scale);
            return new([new($"{scale.Name} locomotive moving", AssumedMoving, scale.Running)], scale.Running, margin, IsAssumed: true)
            {
                IsByCab = byCab,
                Standing = scale.Stopped,
            };
        }

        return new([.. Locomotives(stock), .. Cars(stock)], Heaviest(stock), margin, IsAssumed: false)
        {
            IsByCab = byCab,
            Standing = stock.Locomotives.Select(kind => kind.Stopped).Max(),
        };
    }

    private static IEnumerable<DesignLoadPart> Locomotives(Stock stock)
    {
        int left = stock.MovingAtOnce ?? int.MaxValue;
        foreach (Locomotive kind in stock.Locomotives.OrderByDescending(kind => kind.Running.Amperes))
        {
            int moving = Math.Min(left, kind.Count), standing = kind.Count - moving;
            left -= moving;
            if (moving > 0)
            {
                yield return new($"{kind.Name} moving", moving, kind.Running);
            }

            if (standing > 0)
            {
                yield return new($"{kind.Name} standing", standing, kind.Stopped);
            }
        }
    }

    private static IEnumerable<DesignLoadPart> Cars(Stock stock) => stock.Trains
        .Where(train => train.LitCars > 0)
        .Select(train => new DesignLoadPart($"lit cars of {train.Name}", train.LitCars, train.LitCarCurrent));

    private static ElectricCurrent Heaviest(Stock stock)
    {
        Dictionary<string, double> running = stock.Locomotives
            .GroupBy(kind => kind.Name, StringComparer.Ordinal)
            .ToDictionary(group => group.Key, group => group.First().Running.Amperes, StringComparer.Ordinal);
        double single = running.Values.Max();
        double train = stock.Trains
            .Select(train => (train.LitCars * train.LitCarCurrent.Amperes)
                + train.Locomotives.Sum(name => running.GetValueOrDefault(name)))
            .DefaultIfEmpty(0)
            .Max();
        return ElectricCurrent.FromAmperes(Math.Max(single, train));
    }
}

/// <summary>One part of a <see cref="DesignLoad"/>.</summary>
/// <param name="What">What draws it.</param>
/// <param name="Count">How many of them.</param>
/// <param name="Each">Current of each.</param>
public sealed record DesignLoadPart(string What, int Count, ElectricCurrent Each)
{
    /// <summary>Current of all of them.</summary>
    public ElectricCurrent Total => Each * Count;
}
