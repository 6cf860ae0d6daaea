using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Sessions;

/// <summary>What draws current in a train: a locomotive or a lit car. Currents are whole microamperes, so that sums are exact.</summary>
/// <param name="Metres">Middle of its pick-up, behind the leading end of the train.</param>
/// <param name="Standing">Current while the train stands.</param>
/// <param name="Starting">Current while it starts.</param>
/// <param name="Running">Current while it runs.</param>
internal readonly record struct Consumer(double Metres, int Standing, int Starting, int Running)
{
    /// <summary>Its current, microamperes.</summary>
    internal int At(Draws draws) => draws switch
    {
        Draws.Nothing => 0,
        Draws.Standing => Standing,
        Draws.Starting => Starting,
        Draws.Running => Running,
        _ => throw new ArgumentOutOfRangeException(nameof(draws), draws, "not a state of a consumer"),
    };
}

/// <summary>What a train draws.</summary>
internal enum Draws
{
    /// <summary>It is not on the rails.</summary>
    Nothing,

    /// <summary>What it needs with sound and light.</summary>
    Standing,

    /// <summary>The current of a start.</summary>
    Starting,

    /// <summary>The current of a run.</summary>
    Running,
}

/// <summary>A train, or a locomotive by itself.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Metres">First to last wheel.</param>
/// <param name="Locomotives">How many locomotives it has.</param>
/// <param name="Consumers">What draws current in it, from the leading end back.</param>
internal sealed record TrainUnit(string Name, double Metres, int Locomotives, ImmutableArray<Consumer> Consumers);

/// <summary>
/// The trains of a layout made up from its locomotives, in the order of the stock list, and the locomotives left over by themselves.
/// Locomotives lead, one behind the other; lit cars are spread evenly over the rest of the train.
/// </summary>
/// <param name="Units">What is on the railway.</param>
/// <param name="MovingAtOnce">How many locomotives operators drive at one time.</param>
/// <param name="NotMadeUp">Trains for which too few locomotives were left.</param>
/// <param name="IsAssumed">Whether nothing is listed and the scale's usual locomotives were taken, as in <see cref="DesignLoad"/>.</param>
internal sealed record SessionStock(ImmutableArray<TrainUnit> Units, int MovingAtOnce, ImmutableArray<string> NotMadeUp, bool IsAssumed)
{
    private const double MicroamperesPerAmpere = 1e6;

    internal static SessionStock Of(Layout layout)
    {
        Stock stock = layout.Stock;
        bool assumed = !stock.Locomotives.Any(kind => kind.Count > 0);
        Dictionary<string, (Locomotive Kind, int Left)> kinds = (assumed ? Usual(layout.Scale) : stock.Locomotives)
            .GroupBy(kind => kind.Name, StringComparer.Ordinal)
            .ToDictionary(group => group.Key, group => (group.First(), group.Sum(kind => kind.Count)), StringComparer.Ordinal);
        List<TrainUnit> units = [];
        List<string> notMadeUp = [];
        foreach (Train train in assumed ? [] : stock.Trains)
        {
            if (TakeOut(train, kinds) is { } engines)
            {
                units.Add(MadeUp(train, engines));
            }
            else
            {
                notMadeUp.Add(train.Name);
            }
        }

        units.AddRange(kinds.Values.SelectMany(kind => Enumerable.Range(1, kind.Left).Select(i => Single(kind.Kind, i, kind.Left))));
        return new([.. units], stock.MovingAtOnce ?? units.Sum(unit => unit.Locomotives), [.. notMadeUp], assumed);
    }

    private static IEnumerable<Locomotive> Usual(string scaleName)
    {
        ScaleRow scale = ScaleTable.FindOrUsual(scaleName);
        yield return new($"{scale.Name} locomotive", scale.Running, scale.Stopped, scale.Starting, scale.Stalled, scale.Pickup, DesignLoad.AssumedMoving);
    }

    private static List<Locomotive>? TakeOut(Train train, Dictionary<string, (Locomotive Kind, int Left)> kinds)
    {
        bool enough = train.Locomotives.Length > 0 && train.Locomotives
            .GroupBy(name => name, StringComparer.Ordinal)
            .All(group => kinds.TryGetValue(group.Key, out (Locomotive, int Left) kind) && kind.Left >= group.Count());
        if (!enough)
        {
            return null;
        }

        List<Locomotive> engines = [];
        foreach (string name in train.Locomotives)
        {
            (Locomotive kind, int left) = kinds[name];
            kinds[name] = (kind, left - 1);
            engines.Add(kind);
        }

        return engines;
    }

    private static TrainUnit Single(Locomotive kind, int number, int count) => new(
        count == 1 ? kind.Name : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{kind.Name} {number}"),
        kind.Pickup.Meters,
        1,
        [Of(kind, kind.Pickup.Meters / 2)]);

    private static TrainUnit MadeUp(Train train, List<Locomotive> engines)
    {
        double behind = 0;
        List<Consumer> consumers = [];
        foreach (Locomotive engine in engines)
        {
            consumers.Add(Of(engine, behind + (engine.Pickup.Meters / 2)));
            behind += engine.Pickup.Meters;
        }

        double metres = Math.Max(train.Length.Meters, behind);
        int car = Whole(train.LitCarCurrent);
        consumers.AddRange(Enumerable.Range(0, train.LitCars).Select(i =>
            new Consumer(behind + ((i + 0.5) * (metres - behind) / train.LitCars), car, car, car)));
        return new(train.Name, metres, engines.Count, [.. consumers]);
    }

    private static Consumer Of(Locomotive engine, double metres) =>
        new(metres, Whole(engine.Stopped), Whole(engine.Starting), Whole(engine.Running));

    private static int Whole(ElectricCurrent current) => (int)Math.Round(current.Amperes * MicroamperesPerAmpere);
}
