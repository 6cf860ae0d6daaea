using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Trains;

/// <summary>What one train draws, and over what length.</summary>
/// <param name="Name">Its name in the stock list.</param>
/// <param name="Engines">Current of its engines, running; drawn at its head.</param>
/// <param name="LitCars">How many cars carry lights; they stand evenly along its length.</param>
/// <param name="LitCar">Current of each of those.</param>
/// <param name="Length">First to last metal wheel.</param>
public sealed record TrainDemand(string Name, ElectricCurrent Engines, int LitCars, ElectricCurrent LitCar, Length Length)
{
    /// <summary>Current of engines and cars.</summary>
    public ElectricCurrent Total => Engines + (LitCar * LitCars);

    /// <summary>
    /// The trains that move at one time, those that draw most first. Without a count they are made up of as many engines as
    /// <see cref="Stock.MovingAtOnce"/> says (all of them, where it says nothing): trains of the stock list while there are engines for
    /// them, then engines by themselves. With a count there are exactly so many: if the stock does not suffice, more of the heaviest.
    /// A layout without a stock list is taken to have its scale's usual engines, two unless a count is given.
    /// </summary>
    /// <param name="layout">The layout.</param>
    /// <param name="count">How many trains, 1 or more; null for those of the stock list.</param>
    public static ImmutableArray<TrainDemand> Of(Layout layout, int? count = null)
    {
        if (count < 1)
        {
            throw new ArgumentOutOfRangeException(nameof(count), count, "must be 1 or more");
        }

        List<TrainDemand> trains = [.. Formed(layout, count is null ? layout.Stock.MovingAtOnce ?? int.MaxValue : int.MaxValue)];
        while (trains.Count < (count ?? 0))
        {
            trains.Add(trains[0]);
        }

        return [.. trains.OrderByDescending(train => train.Total.Amperes).Take(count ?? int.MaxValue)];
    }

    private static IEnumerable<TrainDemand> Formed(Layout layout, int moving)
    {
        Dictionary<string, Locomotive> kinds = layout.Stock.Locomotives
            .Where(kind => kind.Count > 0)
            .GroupBy(kind => kind.Name, StringComparer.Ordinal)
            .ToDictionary(group => group.Key, group => group.First(), StringComparer.Ordinal);
        if (kinds.Count == 0)
        {
            return Assumed(layout, Math.Min(moving, 2));
        }

        Dictionary<string, int> left = kinds.ToDictionary(pair => pair.Key, pair => pair.Value.Count, StringComparer.Ordinal);
        List<TrainDemand> formed = [];
        foreach (Train train in layout.Stock.Trains.OrderByDescending(train => Demand(train, kinds).Total.Amperes))
        {
            Dictionary<string, int> needs = train.Locomotives.GroupBy(name => name, StringComparer.Ordinal)
                .ToDictionary(group => group.Key, group => group.Count(), StringComparer.Ordinal);
            if (train.Locomotives.Length > 0 && train.Locomotives.Length <= moving && needs.All(need => left.GetValueOrDefault(need.Key) >= need.Value))
            {
                moving -= train.Locomotives.Length;
                foreach ((string name, int engines) in needs)
                {
                    left[name] -= engines;
                }

                formed.Add(Demand(train, kinds));
            }
        }

        return [.. formed, .. Alone(kinds, left).Take(moving)];
    }

    private static TrainDemand Demand(Train train, Dictionary<string, Locomotive> kinds) => new(
        train.Name,
        ElectricCurrent.FromAmperes(train.Locomotives.Sum(name => kinds.TryGetValue(name, out Locomotive? kind) ? kind.Running.Amperes : 0)),
        train.LitCars, train.LitCarCurrent, train.Length);

    private static IEnumerable<TrainDemand> Alone(Dictionary<string, Locomotive> kinds, Dictionary<string, int> left) =>
        from kind in kinds.Values.OrderByDescending(kind => kind.Running.Amperes)
        from _ in Enumerable.Range(0, left[kind.Name])
        select new TrainDemand(kind.Name, kind.Running, 0, ElectricCurrent.Zero, kind.Pickup);

    private static IEnumerable<TrainDemand> Assumed(Layout layout, int count)
    {
        ScaleRow scale = ScaleTable.FindOrUsual(layout.Scale);
        return Enumerable.Repeat(new TrainDemand($"{scale.Name} engine", scale.Running, 0, ElectricCurrent.Zero, layout.ShortestPickup), count);
    }
}
