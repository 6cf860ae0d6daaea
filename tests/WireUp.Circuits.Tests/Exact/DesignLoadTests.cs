using UnitsNet;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Exact;

public sealed class DesignLoadTests
{
    [Fact]
    public void A_club_evening_adds_up()
    {
        // Six of twenty locomotives move at 0.5 A, fourteen stand with sound at 0.1 A, ten cars at 15 mA and four at 150 mA: 5.15 A,
        // with a quarter for growth 6.4375 A.
        Stock club = new()
        {
            Locomotives = [Engine("sound", 0.5, 0.1, 20)],
            MovingAtOnce = 6,
            Trains = [Train("modern", 10, 0.015, "sound"), Train("old", 4, 0.15, "sound", "sound")],
        };
        DesignLoad load = Load(club);
        Assert.Equal(5.15, load.Working.Amperes, 1e-12);
        Assert.Equal(6.4375, load.Total.Amperes, 1e-12);
        Assert.Equal((2 * 0.5) + (4 * 0.15), load.HeaviestTrain.Amperes, 1e-12);
        Assert.False(load.IsAssumed);
    }

    [Fact]
    public void Those_that_draw_most_are_taken_as_moving()
    {
        Stock stock = new() { Locomotives = [Engine("small", 0.2, 0.05, 3), Engine("large", 0.8, 0.1, 2)], MovingAtOnce = 3 };
        Assert.Equal((2 * 0.8) + 0.2 + (2 * 0.05), Load(stock).Working.Amperes, 1e-12);
    }

    [Fact]
    public void A_direct_current_cab_drives_one_train_however_many_blocks_are_set_to_it()
    {
        Layout direct = TwoCabs.Block() with { Stock = new() { Locomotives = [Engine("e", 0.3, 0.1, 5)] } };
        Assert.Equal(0.3, DesignLoad.Of(direct).ForDistrict(1).Amperes, 1e-12);
        Assert.Equal(5 * 0.3 * 1.25, DesignLoad.Of(direct with { Control = ControlSystem.Command }).ForDistrict(1).Amperes, 1e-12);
    }

    [Fact]
    public void All_move_where_nothing_is_said() =>
        Assert.Equal(5 * 0.3, Load(new() { Locomotives = [Engine("e", 0.3, 0.1, 5)] }).Working.Amperes, 1e-12);

    [Fact]
    public void Without_stock_two_usual_locomotives_are_assumed_and_it_is_said()
    {
        DesignLoad load = Load(Stock.None);
        Assert.True(load.IsAssumed);
        Assert.Equal(2 * 0.5, load.Working.Amperes, 1e-12);
        Assert.Equal(0.5, load.HeaviestTrain.Amperes, 1e-12);
    }

    [Fact]
    public void A_small_district_still_carries_the_heaviest_train()
    {
        DesignLoad load = Load(new() { Locomotives = [Engine("e", 0.5, 0.1, 8)] });
        Assert.Equal(5 * 0.5, load.ForDistrict(0.5).Amperes, 1e-12);
        Assert.Equal(0.5, load.ForDistrict(0.01).Amperes, 1e-12);
    }

    private static DesignLoad Load(Stock stock) => DesignLoad.Of(new PlanBuilder().Section("s", 1).Runs(stock).Build());

    private static Locomotive Engine(string name, double running, double stopped, int count) => new(
        name,
        ElectricCurrent.FromAmperes(running),
        ElectricCurrent.FromAmperes(stopped),
        ElectricCurrent.FromAmperes(2 * running),
        ElectricCurrent.FromAmperes(3 * running),
        Length.FromMillimeters(60),
        count);

    private static Train Train(string name, int litCars, double each, params string[] locomotives) =>
        new(name, [.. locomotives], litCars, ElectricCurrent.FromAmperes(each), Length.FromMeters(1));
}
