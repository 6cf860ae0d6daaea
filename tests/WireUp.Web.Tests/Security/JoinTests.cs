using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using System.Net.WebSockets;
using System.Text;
using Microsoft.AspNetCore.Http;
using WireUp.Web.Hosting;
using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Security;

/// <summary>Attacks on the page while it is open to the local network, from other machines of it.</summary>
public sealed class JoinTests
{
    private const string Own = "192.168.1.5";
    private const string Other = "192.168.1.7";

    private readonly List<string> _told = [];
    private readonly JoinDoor _door;

    public JoinTests()
    {
        _door = new(_told.Add);
        _door.Open();
    }

    private string Code => _told.Last(line => line.StartsWith("code to join: ", StringComparison.Ordinal)).Split(' ')[3];

    [Theory]
    [InlineData("/", "GET")]
    [InlineData("/layouts/attic/text", "GET")]
    [InlineData("/_blazor", "GET")]
    [InlineData("/_blazor/negotiate", "POST")]
    [InlineData("/start", "POST")]
    [InlineData("/hand-in", "POST")]
    [InlineData("/_framework/blazor.web.js", "GET")]
    [InlineData("/_content/WireUp.Web/page.css/../plan.js", "GET")]
    public async Task Without_the_key_of_the_door_another_machine_gets_nothing_but_the_form(string path, string method)
    {
        foreach (string? cookie in new[] { null, "wireup-join=", "wireup-join=0000", $"wireup-join={Code}" })
        {
            (int status, bool isIn, string answer) = await AskAsync(path, method, cookie: cookie);
            Assert.Equal(StatusCodes.Status401Unauthorized, status);
            Assert.False(isIn);
            Assert.DoesNotContain(Code, answer, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_code_lets_in_one_browser_and_then_another_code_is_told()
    {
        string code = Code;
        (int status, _, _) = await AskAsync("/join", "POST", form: $"code={code.ToLowerInvariant().Replace("-", "+", StringComparison.Ordinal)}");
        Assert.Equal(StatusCodes.Status302Found, status);
        string[] parts = _cookie!.Split("; ");
        Assert.Contains("httponly", parts);
        Assert.Contains("samesite=strict", parts);
        Assert.True((await AskAsync("/", "GET", cookie: parts[0])).IsIn);
        Assert.True((await AskAsync("/_blazor", "GET", cookie: parts[0])).IsIn);
        Assert.NotEqual(code, Code);
        Assert.Equal(StatusCodes.Status401Unauthorized, (await AskAsync("/join", "POST", form: $"code={code}")).Status);
        Assert.False((await AskAsync("/", "GET", cookie: parts[0][..^1] + (parts[0][^1] == '0' ? '1' : '0'))).IsIn);
    }

    [Fact]
    public async Task Who_tries_wrong_codes_is_soon_not_heard_with_the_right_one_either()
    {
        for (int i = 0; i < JoinDoor.MostTriesOfOne; i++) Assert.NotEqual(StatusCodes.Status302Found, (await AskAsync("/join", "POST", form: $"code=WRONG{i:000}")).Status);
        Assert.Equal(StatusCodes.Status429TooManyRequests, (await AskAsync("/join", "POST", form: $"code={Code}")).Status);
        Assert.Contains(_told, line => line.StartsWith(Other, StringComparison.Ordinal));
        Assert.Equal(StatusCodes.Status302Found, (await AskAsync("/join", "POST", form: $"code={Code}", from: "192.168.1.8")).Status);
    }

    [Fact]
    public async Task After_a_hundred_wrong_codes_from_many_addresses_nobody_joins_any_more()
    {
        for (int i = 0; i < JoinDoor.MostTries; i++) await AskAsync("/join", "POST", form: "code=WRONG000", from: $"192.168.2.{i + 1}");
        Assert.Equal(StatusCodes.Status429TooManyRequests, (await AskAsync("/join", "POST", form: $"code={Code}", from: "192.168.3.1")).Status);
        Assert.Contains(_told, line => line.Contains("nobody else can join", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("evil.example", null, Other, StatusCodes.Status421MisdirectedRequest, "a name pointed at this machine")]
    [InlineData("127.0.0.1:5210", null, Other, StatusCodes.Status421MisdirectedRequest, "the address of this machine for itself")]
    [InlineData("localhost:5210", null, Other, StatusCodes.Status421MisdirectedRequest, "the name of this machine for itself")]
    [InlineData(Own + ":5211", null, Other, StatusCodes.Status421MisdirectedRequest, "another port")]
    [InlineData("192.168.1.6:5210", null, Other, StatusCodes.Status421MisdirectedRequest, "another address")]
    [InlineData(Own + ":5210", "http://evil.example", Other, StatusCodes.Status403Forbidden, "another site")]
    [InlineData(Own + ":5210", "null", Other, StatusCodes.Status403Forbidden, "a site without a name")]
    [InlineData(Own + ":5210", null, "8.8.8.8", StatusCodes.Status403Forbidden, "from outside the local network")]
    public async Task A_foreign_host_origin_or_network_is_refused_even_with_the_key(string host, string? origin, string from, int expected, string what)
    {
        string key = _door.Trade(Code, IPAddress.Parse(Other))!;
        (int status, bool isIn, _) = await AskAsync("/_blazor", "GET", host, origin, $"wireup-join={key}", from: from);
        Assert.True(status == expected && !isIn, $"{what}: {status}");
    }

    [Theory]
    [InlineData("10.1.2.3", true)]
    [InlineData("172.16.0.1", true)]
    [InlineData("172.31.255.254", true)]
    [InlineData("192.168.0.1", true)]
    [InlineData("169.254.10.1", true)]
    [InlineData("172.32.0.1", false)]
    [InlineData("192.169.0.1", false)]
    [InlineData("8.8.8.8", false)]
    [InlineData("2001:db8::1", false)]
    public void Private_networks_are_those_of_the_standards(string address, bool isNear) => Assert.Equal(isNear, JoinGate.IsNear(IPAddress.Parse(address)));

    [Fact]
    public async Task Over_a_real_network_the_form_comes_first_then_the_page_and_its_open_connection()
    {
        IPAddress? own = NetworkInterface.GetAllNetworkInterfaces().SelectMany(card => card.GetIPProperties().UnicastAddresses).Select(address => address.Address)
            .FirstOrDefault(address => address.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(address));
        Assert.SkipWhen(own is null, "this machine is in no network");
        await using Served served = await Served.StartAsync(_told.Add, "balloon-loop");
        Uri address = new($"http://{own}:{served.Address.Port}/");
        CookieContainer cookies = new();
        using HttpClient client = new(new HttpClientHandler { CookieContainer = cookies, AllowAutoRedirect = true });
        using HttpResponseMessage asked = await client.GetAsync(address, Cancel);
        Assert.Equal(HttpStatusCode.Unauthorized, asked.StatusCode);
        Assert.Contains("default-src 'none'", Assert.Single(asked.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        Assert.DoesNotContain("balloon-loop", await asked.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        Uri socket = new($"ws://{own}:{served.Address.Port}/_blazor");
        using (ClientWebSocket stranger = new()) await Assert.ThrowsAsync<WebSocketException>(() => stranger.ConnectAsync(socket, Cancel));
        using FormUrlEncodedContent form = new([new("code", Code)]);
        using HttpResponseMessage joined = await client.PostAsync(new Uri(address, "/join"), form, Cancel);
        Assert.Contains("balloon-loop", await joined.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        using ClientWebSocket guest = new();
        guest.Options.SetRequestHeader("Cookie", cookies.GetCookieHeader(address));
        await guest.ConnectAsync(socket, Cancel);
        Assert.Equal(WebSocketState.Open, guest.State);
        Assert.Contains("balloon-loop", await new HttpClient().GetStringAsync(served.Address, Cancel), StringComparison.Ordinal);
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private string? _cookie;

    private async Task<(int Status, bool IsIn, string Answer)> AskAsync(
        string path, string method, string host = Own + ":5210", string? origin = null, string? cookie = null, string? form = null, string from = Other)
    {
        DefaultHttpContext context = new();
        context.Connection.RemoteIpAddress = IPAddress.Parse(from);
        context.Connection.LocalIpAddress = IPAddress.Parse(Own);
        context.Connection.LocalPort = 5210;
        (context.Request.Method, context.Request.Path, context.Request.Host) = (method, path, new(host));
        if (origin is not null) context.Request.Headers.Origin = origin;
        if (cookie is not null) context.Request.Headers.Cookie = cookie;
        if (form is not null)
        {
            context.Request.ContentType = "application/x-www-form-urlencoded";
            context.Request.ContentLength = form.Length;
            context.Request.Body = new MemoryStream(Encoding.ASCII.GetBytes(form));
        }

        using MemoryStream answer = new();
        context.Response.Body = answer;
        bool isIn = false;
        JoinGate inner = new(_ => { isIn = true; return Task.CompletedTask; }, _door);
        await new Gate(inner.InvokeAsync).InvokeAsync(context);
        _cookie = context.Response.Headers.SetCookie.ToString();
        return (context.Response.StatusCode, isIn, Encoding.UTF8.GetString(answer.ToArray()));
    }
}
