namespace WireUp.Acceptance.Tests.Architecture;

public sealed class ImmutabilityTests
{
    [Fact]
    public void Public_types_of_the_rooms_cannot_change_once_made()
    {
        var types = Rooms.PublicTypes.Where(type => !Immutability.MayChange(type));
        Assert.Empty(types.SelectMany(Immutability.Offences));
    }

    [Theory]
    [InlineData(typeof(Settable), "field")]
    [InlineData(typeof(WithArray), "Int32[]")]
    [InlineData(typeof(OpenRecord), "neither sealed")]
    [InlineData(typeof(LooseStruct), "not readonly")]
    public void The_check_sees_each_way_to_change(Type type, string part) =>
        Assert.Contains(Immutability.Offences(type), offence => offence.Contains(part, StringComparison.Ordinal));

    [Theory]
    [InlineData(typeof(Fine))]
    [InlineData(typeof(FineId))]
    [InlineData(typeof(Choice))]
    [InlineData(typeof(Choice.Yes))]
    public void The_check_passes_immutable_types(Type type) => Assert.Empty(Immutability.Offences(type));

    private sealed record Settable { public int Value { get; set; } }

    private sealed record WithArray(int[] Values);

    private record OpenRecord(int Value);

    private sealed record Heir(int Value) : OpenRecord(Value);

    private record struct LooseStruct(int Value);

    private sealed record Fine(int Value, string Name);

    private readonly record struct FineId(string Value);

    private abstract record Choice
    {
        private Choice() { }

        public sealed record Yes : Choice;
    }
}
